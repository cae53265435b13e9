/** Sound exports made in memory, without a store. */
import type { FactDraft } from '../../src/domain/fact';
import type { ExportFile } from '../../src/record/chain/export-file';
import { sealFact } from '../../src/record/chain/fact-bytes';
import { makeHashHex } from '../../src/record/chain/hash';
import { createTree } from '../../src/record/chain/tree';

/** The export of a journal of these drafts: the whole, or one pack of it. */
export function exportOf(drafts: readonly FactDraft[], pack: string | null): ExportFile {
  const tree = createTree();
  const sealed = drafts.map((draft, seq) => {
    const one = sealFact(draft, seq);
    if (!one.ok) throw new Error(one.detail);
    tree.append(one.value.leaf);
    return one.value;
  });
  const size = sealed.length;
  const facts = sealed
    .filter(({ fact }) => pack === null || fact.pack === pack)
    .map(({ fact, bytes }) => ({ fact, bytes, path: pack === null ? [] : tree.inclusion(fact.seq, size) }));
  return { head: { size, root: makeHashHex(tree.root(size)) }, pack, facts, checkpoints: [], keys: [] };
}
