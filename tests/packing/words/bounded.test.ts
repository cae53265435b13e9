/** No text that the machine composes is too long to be stored, and what is cut says so. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FactBody } from '../../../src/domain/fact';
import { bounded, cut } from '../../../src/packing/words/bounded';
import { draft } from '../../../src/packing/machine/decision';
import { sealFact } from '../../../src/record/chain/fact-bytes';

const text = fc.string({ unit: 'binary', maxLength: 6_000, minLength: 0, size: 'max' });
const body: fc.Arbitrary<FactBody> = fc.oneof(
  text.map((reason): FactBody => ({ kind: 'stopped', reason })),
  text.map((detail): FactBody => ({ kind: 'scanRefused', reason: 'unknown', detail, where: 'identify' })),
  fc
    .array(fc.record({ label: text, passed: fc.boolean(), detail: text }), { maxLength: 4 })
    .map((checks): FactBody => ({ kind: 'checkInFailed', checks })),
);

describe('a fact that the machine drafts', () => {
  it('can be stored, however long the words that it was made from', () => {
    fc.assert(
      fc.property(body, (made) => {
        const one = draft({ pack: 'p' }, { by: null, at: '2026-11-29T09:00:00.000Z', body: made });
        expect(sealFact(one, 0)).toMatchObject({ ok: true });
      }),
    );
  });

  it('is left as it is where it fits, and ends in a sign where it was cut', () => {
    const short: FactBody = { kind: 'stopped', reason: 'Wet.' };
    expect(bounded(short)).toEqual(short);
    expect(cut('a'.repeat(2_000))).toBe('a'.repeat(2_000));
    expect(cut('a'.repeat(2_001))).toBe(`${'a'.repeat(1_999)}…`);
    expect(cut(`${'a'.repeat(1_998)}😀${'a'.repeat(9)}`)).toBe(`${'a'.repeat(1_998)}…`);
  });
});
