import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { makeHashHex, nodeHash } from '../../../src/record/chain/hash';
import { checkInclusion } from '../../../src/record/chain/proof';
import { createTree } from '../../../src/record/chain/tree';
import { openJournal } from '../../../src/record/store/journal-db';
import { createNodeMemory } from '../../../src/record/store/node-memory';
import { proveFact } from '../../../src/record/store/prove';
import type { FactRow, NodeRow } from '../../../src/record/store/rows';
import { createStore } from '../../../src/record/store/store';
import { countDraft } from '../../fakes/ledger-facts';
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

  it('leads to the head through upper nodes that were read for earlier proofs, also after the journal has grown', async () => {
    const store = await opened(await filled(1_100));
    const claims = async (): Promise<void> => {
      for (const seq of [0, 255, 256, 511, 600, 700, 1_023, 1_024, 1_099]) {
        const claim = unwrap(await store.prove(seq));
        expect(makeHashHex(claim.root)).toBe(unwrap(await store.head()).root);
        expect(checkInclusion(claim).ok).toBe(true);
      }
    };
    await claims();
    await claims();
    const more = Array.from({ length: 500 }, (_, i) => countDraft('more', i));
    unwrap(await store.append(unwrap(await store.head()), more));
    await claims();
  });

  it('does without a remembered node that leads elsewhere', async () => {
    const journal = unwrap(await openJournal({ name: await filled(1_100), limitMs: 10_000, onLost: () => undefined }));
    const memory = createNodeMemory();
    memory.keep({ height: 8, index: 1 }, new Uint8Array(32));
    expect(memory.get({ height: 8, index: 1 })).not.toBeNull();
    expect(checkInclusion(unwrap(await proveFact(journal, 0, memory))).ok).toBe(true);
    expect(memory.get({ height: 8, index: 1 })).not.toEqual(new Uint8Array(32));
    journal.close();
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

describe('the memory of upper nodes', () => {
  it('keeps no low node, forgets on demand, and never grows beyond its bound', () => {
    const memory = createNodeMemory();
    expect(memory.forget()).toBe(false);
    memory.keep({ height: 7, index: 0 }, new Uint8Array(32));
    expect(memory.get({ height: 7, index: 0 })).toBeNull();
    for (let index = 0; index < 4_097; index += 1) memory.keep({ height: 8, index }, new Uint8Array(32));
    expect(memory.get({ height: 8, index: 0 })).toBeNull();
    expect(memory.get({ height: 8, index: 4_096 })).not.toBeNull();
    expect(memory.forget()).toBe(true);
    expect(memory.get({ height: 8, index: 4_096 })).toBeNull();
  });
});
