/** Makes an export from fact lines as they are given, sound or not: with all hashes, proofs and seals right around them. */
import type { Fact } from '../../domain/fact';
import { makeCheckpointText } from '../../record/chain/checkpoint';
import { makeExportText, type ExportedFact } from '../../record/chain/export-file';
import { makeFactBytes } from '../../record/chain/fact-bytes';
import { leafHash, makeHashHex } from '../../record/chain/hash';
import { createTree } from '../../record/chain/tree';
import { makeUtf8, parseUtf8 } from '../../record/chain/utf8';
import { keyTextOf, signed, type Signer } from './remake';
import { must } from './table';

/** The lines of these facts, numbered anew from 0. */
export function linesOf(facts: readonly Fact[]): readonly string[] {
  return facts.map((fact, seq) => must(parseUtf8(must(makeFactBytes({ ...fact, seq })))));
}

/** One checkpoint of the head; `below` are the lines under it. */
export async function remakeLines(
  lines: readonly string[],
  signer: Signer,
  below: readonly string[] = [],
): Promise<string> {
  const tree = createTree();
  const facts = lines.map((text, seq): ExportedFact => {
    const bytes = makeUtf8(text);
    tree.append(leafHash(bytes));
    // Only number and bytes of an exported fact are written.
    return { fact: { seq, pack: '', at: '', by: null, body: { kind: 'restarted' } }, bytes, path: [] };
  });
  const root = tree.root(lines.length);
  const text = makeCheckpointText({ origin: signer.name, size: lines.length, root, extensions: below });
  return makeExportText({
    head: { size: lines.length, root: makeHashHex(root) },
    pack: null,
    facts,
    checkpoints: [await signed(text, signer)],
    keys: [await keyTextOf(signer)],
  });
}
