/** The optional check character of Code 39 as a setting of the loft, for each kind of label. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LabelKind } from '../../../src/domain/scanning';
import { makeBadgePayload } from '../../../src/scan/symbology/badge';
import { code39CheckCharacter } from '../../../src/scan/symbology/code39';
import { understandPayload } from '../../../src/scan/symbology/understand-payload';

function meaningOf(payload: string, symbology: string, code39Check: readonly LabelKind[]): string {
  const meaning = understandPayload({ payload, symbology }, { code39Check });
  if (meaning.kind === 'component') return meaning.serial;
  return meaning.kind === 'badge' ? `badge ${meaning.badge}` : meaning.kind === 'refused' ? meaning.reason : 'card';
}

const CHECK = code39CheckCharacter('QC-204-118');
const BADGE = makeBadgePayload('7G3KQX0V9TBM52HD');
const BADGE_CHECK = code39CheckCharacter(BADGE.replace('*', '%'));

describe('a Code 39 label', () => {
  it.each<[string, string, string, readonly LabelKind[], string]>([
    ['is checked where the loft prints the check', `QC-204-118${CHECK}`, 'code39', ['component'], 'QC-204-118'],
    ['is refused without it', 'QC-204-118', 'code39', ['component'], 'check-wrong'],
    ['is refused with a wrong one', 'QC-204-118A', 'code39', ['component'], 'check-wrong'],
    ['is refused when it is all check', 'A', 'code39', ['component'], 'check-wrong'],
    ['is taken as it is where the loft prints none', 'QC-204-118', 'code39', [], 'QC-204-118'],
    [
      'is checked when only the identifier says what it is',
      `]A0QC-204-118${CHECK}`,
      'unknown',
      ['component'],
      'QC-204-118',
    ],
    ['is not checked again where the reader has taken it off', ']A3QC-204-118', 'unknown', ['component'], 'QC-204-118'],
    ['of another kind keeps its own rule', BADGE, 'code39', ['component'], 'badge 7G3KQX0V9TBM52HD'],
    ['that is a badge is checked too', `${BADGE}${BADGE_CHECK}`, 'code39', ['badge'], 'badge 7G3KQX0V9TBM52HD'],
    ['that is a badge is refused without it', BADGE, 'code39', ['badge'], 'check-wrong'],
    ['is not what a Code 128 label is', 'QC-204-118', 'code128', ['component'], 'QC-204-118'],
  ])('%s', (...[, payload, symbology, kinds, expected]) => {
    expect(meaningOf(payload, symbology, kinds)).toBe(expected);
  });

  it('with one wrong character is never taken for another', () => {
    const characters = fc.constantFrom(...'0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%');
    fc.assert(
      fc.property(fc.nat(10), characters, (at, other) => {
        const payload = `QC-204-118${CHECK}`;
        fc.pre(payload.charAt(at) !== other);
        const wrong = payload.slice(0, at) + other + payload.slice(at + 1);
        expect(meaningOf(wrong, 'code39', ['component'])).toBe('check-wrong');
      }),
      { numRuns: 1000 },
    );
  });
});
