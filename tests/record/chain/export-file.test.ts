import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FactBody } from '../../../src/domain/fact';
import { makeExportText, parseExportText } from '../../../src/record/chain/export-file';
import { factArbitrary } from '../../fakes/ledger-arbitraries';
import { exportOf } from '../../fakes/ledger-export';
import { countDraft, draftOf, SAMPLE_BODIES } from '../../fakes/ledger-facts';

const DRAFTS = [
  ...Object.values<FactBody>(SAMPLE_BODIES).map((body) => draftOf('pack-1', body)),
  ...Array.from({ length: 9 }, (_, i) => countDraft(`pack-${(i % 3) + 1}`, i)),
];
const WHOLE = makeExportText(exportOf(DRAFTS, null));
const ONE = makeExportText(exportOf(DRAFTS, 'pack-2'));

describe('an export', () => {
  it('is a header, each fact in its stored bytes on a line of its own, the seals, and the digest of it all', () => {
    const file = exportOf([countDraft('pack-1', 24)], null);
    const text = makeExportText(file);
    const before = text.slice(0, text.lastIndexOf('{'));
    expect(text.split('\n')).toEqual([
      `{"checkpoints":0,"facts":1,"format":"stowcall-export","head":{"root":"${file.head.root}","size":1},"keys":[],"pack":null,"v":2}`,
      '{"at":"2026-11-25T14:03:11.250+01:00","body":{"count":24,"kind":"counted","noun":"lines","stage":"stage-1"},' +
        '"by":"ines","pack":"pack-1","seq":0,"v":1}',
      // One fact: its leaf hash is the root.
      `{"leaf":"${file.head.root}","seq":0}`,
      `{"sha256":"${createHash('sha256').update(before).digest('hex')}"}`,
      '',
    ]);
  });

  it.each([null, 'pack-1', 'pack-2', 'pack-3', 'pack-none'])('of %s comes back as it was', (pack) => {
    const file = exportOf(DRAFTS, pack);
    expect(parseExportText(makeExportText(file))).toEqual({ ok: true, value: file });
  });

  it('with its checkpoints and key comes back as it was', () => {
    const file = { ...exportOf(DRAFTS, null), keys: ['loft+0000'], checkpoints: ['one\n1\n', 'two\n2\n\n— x y\n'] };
    const text = makeExportText(file);
    expect(text.split('\n').slice(-4, -2)).toEqual([
      '{"checkpoint":"one\\n1\\n"}',
      '{"checkpoint":"two\\n2\\n\\n— x y\\n"}',
    ]);
    expect(parseExportText(text)).toEqual({ ok: true, value: file });
    const spaced = text.replace('{"checkpoint":"one', '{"checkpoint": "one');
    expect(parseExportText(spaced)).toMatchObject({ ok: false, reason: 'altered' });
    const fewer = text.replace('{"checkpoint":"one\\n1\\n"}\n', '');
    expect(parseExportText(fewer)).toMatchObject({ ok: false, reason: 'cut-short' });
  });

  it('of an empty journal comes back too', () => {
    const file = exportOf([], null);
    expect(parseExportText(makeExportText(file))).toEqual({ ok: true, value: file });
  });

  it('of any facts comes back as it was, byte for byte', () => {
    fc.assert(
      fc.property(fc.array(factArbitrary, { maxLength: 12 }), fc.boolean(), (drafts, whole) => {
        const file = exportOf(drafts, whole ? null : (drafts[0]?.pack ?? 'none'));
        const text = makeExportText(file);
        const parsed = parseExportText(text);
        expect(parsed).toEqual({ ok: true, value: file });
        if (parsed.ok) expect(makeExportText(parsed.value)).toBe(text);
      }),
      { numRuns: 60 },
    );
  });
});

const LINES = 2 + 2 * DRAFTS.length;
/** Index of the first seal line. */
const SEALS = 1 + DRAFTS.length;
const lineOf = (detail: string): number => Number(/^Line (\d+) /.exec(detail)?.[1] ?? Number.NaN);
const lines = (text: string): string[] => text.split('\n').slice(0, -1);
const joined = (all: readonly string[]): string => all.map((line) => `${line}\n`).join('');

describe('an export that was changed is refused', () => {
  it.each<[string, (all: string[]) => string[], number]>([
    ['a fact dropped', (all) => all.toSpliced(5, 1), LINES - 1],
    ['a fact dropped with its seal', (all) => all.toSpliced(SEALS + 4, 1).toSpliced(5, 1), LINES - 2],
    ['a fact repeated', (all) => all.toSpliced(5, 0, all[5]!), LINES + 1],
    ['two facts swapped', (all) => all.with(5, all[6]!).with(6, all[5]!), 6],
    ['a fact replaced by another', (all) => all.with(5, all[6]!), 6],
    ['a seal dropped', (all) => all.toSpliced(SEALS + 9, 1), LINES - 1],
    ['two seals swapped', (all) => all.with(SEALS + 4, all[SEALS + 5]!).with(SEALS + 5, all[SEALS + 4]!), SEALS + 5],
    ['no facts at all', (all) => all.slice(0, 1), 1],
    ['a line added', (all) => [...all, '{}'], LINES + 1],
    ['an empty line added', (all) => [...all, ''], LINES + 1],
    ['another header line', (all) => [all[0]!, ...all], LINES + 1],
    ['another digest', (all) => all.with(-1, all.at(-1)!.replace(/:"./, ':"g')), LINES],
    ['a fact in other spelling', (all) => all.with(5, `${all[5]!} `), 6],
  ])('%s', (_, change, line) => {
    const all = lines(WHOLE);
    expect(all.length).toBe(LINES);
    const result = parseExportText(joined(change(all)));
    expect(result.ok).toBe(false);
    if (!result.ok) expect(lineOf(result.detail)).toBe(line);
  });

  it('a value altered together with its seal does not lead to the root', () => {
    const forged = exportOf(
      DRAFTS.map((draft, i) => (i === 30 ? countDraft(draft.pack, 77) : draft)),
      null,
    );
    const file = { ...forged, head: exportOf(DRAFTS, null).head };
    expect(parseExportText(makeExportText(file))).toMatchObject({
      ok: false,
      reason: 'altered',
      detail: expect.stringContaining('root') as string,
    });
  });

  it('a pack with a fact of another pack, or with one that its proof does not fit', () => {
    const file = exportOf(DRAFTS, 'pack-2');
    const foreign = exportOf(DRAFTS, 'pack-3');
    const mixed = { ...file, facts: [...file.facts.slice(0, -1), ...foreign.facts.slice(-1)] };
    expect(parseExportText(makeExportText(mixed))).toMatchObject({ reason: 'altered' });
    const bare = { ...file, facts: file.facts.map((fact) => ({ ...fact, path: fact.path.slice(1) })) };
    expect(parseExportText(makeExportText(bare))).toMatchObject({
      reason: 'altered',
      detail: expect.stringContaining('proof') as string,
    });
    const turned = { ...file, facts: [...file.facts].reverse() };
    expect(parseExportText(makeExportText(turned))).toMatchObject({ reason: 'altered' });
  });

  it('a pack whose size was altered, which its proofs do not bind', () => {
    const size = DRAFTS.length;
    const all = lines(makeExportText(exportOf(DRAFTS.slice(0, size), 'pack-2')));
    for (let other = size + 1; other < size + 30; other += 1) {
      const altered = all.with(0, all[0]!.replace(`"size":${size}`, `"size":${other}`));
      expect(parseExportText(joined(altered))).toMatchObject({ ok: false, reason: 'altered' });
    }
  });

  it('cut short at any character', () => {
    for (let length = 0; length < ONE.length; length += 7) {
      expect(parseExportText(ONE.slice(0, length)).ok).toBe(false);
    }
  });

  it.each([
    ['the whole journal', WHOLE],
    ['one pack', ONE],
  ])('one bit changed anywhere in %s', (_, text) => {
    const bytes = new TextEncoder().encode(text);
    let state = 7;
    for (let n = 0; n < 1_500; n += 1) {
      state = (state * 48_271) % 2_147_483_647;
      const bit = state % (bytes.length * 8);
      const changed = new TextDecoder().decode(bytes.with(bit >> 3, bytes[bit >> 3]! ^ (1 << (bit & 7))));
      if (parseExportText(changed).ok) throw new Error(`bit ${bit} changed and not seen`);
    }
  });

  it('a newer file is told apart from a damaged one', () => {
    expect(parseExportText(WHOLE.replace('"v":2}\n', '"v":3}\n'))).toMatchObject({ ok: false, reason: 'newer' });
    const all = lines(WHOLE);
    const newerFact = joined(all.with(3, all[3]!.replace('"v":1', '"v":2')));
    expect(parseExportText(newerFact)).toMatchObject({ ok: false, reason: 'newer' });
  });

  it.each(['', '\n', '{}\n', '[]\n', 'null\n', 'a letter\n', '{"format":"other"}\n'])('%j is no export', (text) => {
    const result = parseExportText(text);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(['not-an-export', 'cut-short']).toContain(result.reason);
  });
});
