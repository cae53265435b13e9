import { describe, expect, it } from 'vitest';
import type { FactBody } from '../../../src/domain/fact';
import { makeExportText } from '../../../src/record/chain/export-file';
import { leafHash } from '../../../src/record/chain/hash';
import { createTree } from '../../../src/record/chain/tree';
import { levelsOf, pathLeads, topOf } from '../../../src/record/verify/bytes/merkle-root';
import { readExport, type Verdict } from '../../../src/record/verify/verify-export';
import { exportOf } from '../../fakes/ledger-export';
import { countDraft, draftOf, SAMPLE_BODIES } from '../../fakes/ledger-facts';

const DRAFTS = [
  ...Object.values<FactBody>(SAMPLE_BODIES).map((body) => draftOf('pack-1', body)),
  ...Array.from({ length: 15 }, (_, i) => countDraft(`pack-${(i % 3) + 1}`, i)),
];
const COUNT = DRAFTS.length;
const WHOLE = makeExportText(exportOf(DRAFTS, null));
const ONE = makeExportText(exportOf(DRAFTS, 'pack-2'));
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const lines = (text: string): string[] => text.split('\n').slice(0, -1);
const joined = (all: readonly string[]): string => all.map((line) => `${line}\n`).join('');
const verifyExport = (bytes: Uint8Array): Verdict => readExport(bytes, () => undefined).verdict;
const verdictOf = (text: string) => verifyExport(bytesOf(text));

/** RFC 6962 root of all leaves, as the verifier works it out. */
function rootByLevels(leaves: readonly Uint8Array[]): Uint8Array {
  const flat = new Uint8Array(32 * leaves.length);
  leaves.forEach((leaf, index) => flat.set(leaf, 32 * index));
  return topOf(levelsOf(flat));
}

describe('tree hashes by another way', () => {
  const tree = createTree();
  const leaves = Array.from({ length: 70 }, (_, i) => leafHash(Uint8Array.of(i)));
  leaves.forEach((leaf) => tree.append(leaf));

  it('agree with the writer’s at every size', () => {
    for (let size = 0; size <= 70; size += 1) expect(rootByLevels(leaves.slice(0, size))).toEqual(tree.root(size));
  });

  it('accept exactly the writer’s proofs', () => {
    for (let size = 1; size <= 70; size += 1) {
      const root = tree.root(size);
      for (let index = 0; index < size; index += 1) {
        const claim = { index, size, leaf: leaves[index]!, root, path: tree.inclusion(index, size) };
        expect(pathLeads(claim)).toBe(true);
        expect(pathLeads({ ...claim, index: index === 0 ? 1 : index - 1 })).toBe(false);
        expect(pathLeads({ ...claim, path: claim.path.slice(1) })).toBe(size === 1);
        expect(pathLeads({ ...claim, path: [...claim.path, root] })).toBe(false);
      }
    }
    expect(pathLeads({ index: 1, size: 1, leaf: leaves[0]!, root: leaves[0]!, path: [] })).toBe(false);
  });
});

describe('a sound export', () => {
  it.each([
    ['the whole journal', null],
    ['pack 1', 'pack-1'],
    ['pack 2', 'pack-2'],
    ['a pack without facts', 'pack-9'],
  ])('%s: nothing is found', (_, pack) => {
    const file = exportOf(DRAFTS, pack);
    expect(verdictOf(makeExportText(file))).toEqual({
      sound: true,
      facts: file.facts.length,
      head: file.head,
      pack,
      findings: [],
    });
  });
  it('an empty journal: nothing is found', () => {
    expect(verdictOf(makeExportText(exportOf([], null))).sound).toBe(true);
  });
});

describe('what was done to an export is named', () => {
  const seal = (fact: number): number => COUNT + 1 + fact;
  const header = (all: readonly string[], facts: number): string =>
    all[0]!.replace(`"facts":${COUNT}`, `"facts":${facts}`);

  it.each<[string, (all: string[]) => string[], string, number]>([
    ['a value altered', (all) => all.with(5, all[5]!.replace('pack-1', 'pack-2')), 'altered', 6],
    ['a fact dropped', (all) => all.toSpliced(5, 1), 'missing', 6],
    [
      'a fact dropped with its seal and counted out',
      (all) => [header(all, COUNT - 1), ...all.slice(1)].toSpliced(seal(4), 1).toSpliced(5, 1),
      'missing',
      6,
    ],
    ['a fact repeated', (all) => all.toSpliced(6, 0, all[5]!), 'repeated', 7],
    ['two facts swapped', (all) => all.with(5, all[6]!).with(6, all[5]!), 'out-of-order', 7],
    [
      'two facts swapped with their seals',
      (all) => {
        const facts = all.with(5, all[6]!).with(6, all[5]!);
        return facts.with(seal(4), facts[seal(5)]!).with(seal(5), facts[seal(4)]!);
      },
      'out-of-order',
      7,
    ],
    ['a fact moved to the end', (all) => all.toSpliced(5, 1).toSpliced(COUNT, 0, all[5]!), 'out-of-order', COUNT + 1],
    ['the last facts cut off', (all) => all.slice(0, 20), 'cut-short', 20],
    ['the seals cut off', (all) => all.slice(0, COUNT + 1), 'cut-short', COUNT + 1],
    ['a line that is no fact', (all) => all.with(5, 'nothing'), 'unreadable', 6],
    ['a seal that is none', (all) => all.with(seal(4), '{}'), 'seal', seal(4) + 1],
    ['a foreign fact', (all) => all.with(5, all[5]!.replace('"seq":4', `"seq":${COUNT + 7}`)), 'foreign', 6],
    [
      'another root',
      (all) =>
        all.with(
          0,
          all[0]!.replace(/"root":"(.)/, (_, digit) => `"root":"${digit === 'f' ? '0' : 'f'}`),
        ),
      'root',
      1,
    ],
    ['another digest', (all) => all.with(-1, all.at(-1)!.replace(/:"./, ':"g')), 'digest', 2 * COUNT + 2],
    ['a header with white space', (all) => all.with(0, all[0]!.replace('{', '{ ')), 'header', 1],
    ['a header key given twice', (all) => all.with(0, all[0]!.replace('{', '{"facts":1,')), 'header', 1],
    ['a newer format', (all) => all.with(0, all[0]!.replace('"v":2', '"v":3')), 'newer', 1],
    ['no header', (all) => all.slice(1), 'not-an-export', 1],
  ])('%s', (...[, change, what, line]) => {
    const all = lines(WHOLE);
    const verdict = verdictOf(joined(change(all)));
    expect(verdict.sound).toBe(false);
    expect(verdict.findings.map((finding) => [finding.what, finding.line])).toContainEqual([what, line]);
  });

  it('a forged fact with a seal of its own is betrayed by the root', () => {
    const forged = exportOf(DRAFTS.with(30, countDraft('pack-1', 999)), null);
    const verdict = verdictOf(makeExportText({ ...forged, head: exportOf(DRAFTS, null).head }));
    expect(verdict.findings.map(({ what }) => what)).toEqual(['root']);
  });

  it('a fact of another pack, and a proof that does not fit', () => {
    const file = exportOf(DRAFTS, 'pack-2');
    const stranger = exportOf(DRAFTS, 'pack-3').facts.at(-1)!;
    const mixed = makeExportText({ ...file, facts: [...file.facts.slice(0, -1), stranger] });
    expect(verdictOf(mixed).findings.map(({ what }) => what)).toEqual(['foreign']);
    const bare = makeExportText({ ...file, facts: file.facts.map((fact) => ({ ...fact, path: [] })) });
    expect(verdictOf(bare).findings.map(({ what }) => what)).toEqual(file.facts.map(() => 'proof'));
  });

  it('every finding is a sentence, and several are all told', () => {
    const all = lines(WHOLE);
    const verdict = verdictOf(
      joined(all.with(3, 'x').with(9, all[9]!.replace('pack-1', 'pack-9')).with(seal(20), 'y')),
    );
    expect(verdict.findings.map(({ line }) => line)).toEqual([1, 4, 4, 10, seal(20) + 1, 2 * COUNT + 2]);
    for (const { detail } of verdict.findings) expect(detail).toMatch(/^[A-Z].+\.$/);
  });
});

describe('alterations at random', () => {
  /** Repeatable chance (Park and Miller's generator). */
  const dice = (start: number) => {
    let state = start;
    return (sides: number): number => {
      state = (state * 48_271) % 2_147_483_647;
      return state % sides;
    };
  };

  it.each([
    ['the whole journal', WHOLE, 11],
    ['one pack', ONE, 12],
  ])('of %s: 1,500 made, 1,500 found', (_, text, start) => {
    const roll = dice(start);
    const bytes = bytesOf(text);
    const all = lines(text);
    const ways: (() => Uint8Array)[] = [
      () => {
        const bit = roll(bytes.length * 8);
        return bytes.with(bit >> 3, bytes[bit >> 3]! ^ (1 << (bit & 7)));
      },
      () => bytes.with(roll(bytes.length), 0x30 + roll(10)),
      () => bytes.slice(0, roll(bytes.length)),
      () => Uint8Array.from([...bytes.slice(0, roll(bytes.length)), ...bytes.slice(roll(bytes.length))]),
      () => bytesOf(joined(all.toSpliced(roll(all.length), 1))),
      () => bytesOf(joined(all.toSpliced(roll(all.length), 0, all[roll(all.length)]!))),
      () => bytesOf(joined(all.with(roll(all.length), all[roll(all.length)]!))),
      () => {
        const [a, b] = [roll(all.length), roll(all.length)];
        return bytesOf(joined(all.with(a, all[b]!).with(b, all[a]!)));
      },
    ];
    let made = 0;
    let found = 0;
    while (made < 1_500) {
      const altered = ways[roll(ways.length)]!();
      if (altered.length === bytes.length && altered.every((byte, i) => byte === bytes[i])) continue;
      made += 1;
      if (!verifyExport(altered).sound) found += 1;
    }
    expect(found).toBe(1_500);
  });

  it('bytes that are nothing at all never throw', () => {
    const roll = dice(13);
    for (let n = 0; n < 500; n += 1) {
      expect(verifyExport(Uint8Array.from({ length: roll(300) }, () => roll(256))).sound).toBe(false);
    }
  });
});
