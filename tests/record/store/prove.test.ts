import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { makeHashHex, nodeHash } from '../../../src/record/chain/hash';
import { checkInclusion } from '../../../src/record/chain/proof';
import { createTree } from '../../../src/record/chain/tree';
import type { FactRow, NodeRow } from '../../../src/record/store/rows';
import { createStore } from '../../../src/record/store/store';
import { filled, opened, tamper, tamperRow, unwrap } from './raw-journal';

describe('proof of a stored fact', () => {
  it.each([1, 2, 3, 8, 21, 64, 77])('for every fact of a journal of %i leads to its head', async (size) => {
    const name = await filled(size);
    const store = createStore({ name });
    const head = unwrap(await store.open());
    const tree = createTree();
    await tamper(name, async (db) =>
      ((await db.getAll('facts')) as FactRow[]).forEach(({ leaf }) => tree.append(leaf)),
    );
    for (let seq = 0; seq < size; seq += 1) {
      const claim = unwrap(await store.prove(seq));
      expect(checkInclusion(claim).ok).toBe(true);
      expect(claim).toMatchObject({ index: seq, size });
      expect(makeHashHex(claim.root)).toBe(head.root);
      expect(claim.proof).toEqual(tree.inclusion(seq, size));
    }
  });

  it('stores each inner node of the tree once, as it is finished', async () => {
    const name = await filled(77);
    await tamper(name, async (db) => {
      const leaves = ((await db.getAll('facts')) as FactRow[]).map(({ leaf }) => leaf);
      const nodes = (await db.getAll('nodes')) as NodeRow[];
      // 77 leaves: 38 + 19 + 9 + 4 + 2 + 1 perfect subtrees of 2, 4, ... 64 leaves.
      expect(nodes.length).toBe(73);
      const at = new Map(nodes.map((node) => [`${node.height}/${node.index}`, node.hash]));
      leaves.forEach((leaf, i) => at.set(`0/${i}`, leaf));
      for (const { height, index, hash } of nodes) {
        const [left, right] = [0, 1].map((side) => at.get(`${height - 1}/${index * 2 + side}`));
        expect(hash).toEqual(nodeHash(left!, right!));
      }
    });
  });

  it.each([-1, 20, 0.5, Number.NaN])('of fact %d, which is not there, is refused', async (seq) => {
    const store = await opened(await filled(20));
    expect(await store.prove(seq)).toMatchObject({ ok: false, reason: 'unavailable' });
  });

  it('of a damaged fact is refused and names it', async () => {
    const name = await filled(20);
    await tamperRow<FactRow>(name, 3, (row) => ({ ...row, bytes: row.bytes.with(9, 0) }));
    expect(await (await opened(name)).prove(3)).toMatchObject({ ok: false, reason: 'corrupt' });
  });

  it.each<[string, (name: string) => Promise<unknown>]>([
    ['missing', (name) => tamper(name, (db) => db.delete('nodes', [2, 1]))],
    ['altered', (name) => tamper(name, (db) => db.put('nodes', { height: 2, index: 1, hash: new Uint8Array(32) }))],
    ['no hash', (name) => tamper(name, (db) => db.put('nodes', { height: 2, index: 1, hash: 'x' }))],
  ])('where a node is %s, no false proof is given away', async (_, damage) => {
    const name = await filled(20);
    await damage(name);
    const store = await opened(name);
    expect(await store.prove(0)).toMatchObject({ ok: false, reason: 'corrupt' });
  });
});
