/** Two exports of one journal: the later goes on from the earlier, or the place where they part is named. */
import { describe, expect, it } from 'vitest';
import { makeExportText } from '../../../src/record/chain/export-file';
import { compareExports } from '../../../src/record/verify/compare-exports';
import { exportOf } from '../../fakes/ledger-export';
import { countDraft } from '../../fakes/ledger-facts';

const journal = (counts: readonly number[], pack: string | null = null): Uint8Array =>
  new TextEncoder().encode(
    makeExportText(
      exportOf(
        counts.map((count) => countDraft('pack-1', count)),
        pack,
      ),
    ),
  );
const OLD = journal([1, 2, 3, 4, 5]);

describe('of two exports', () => {
  it.each([
    ['the later one goes on', [1, 2, 3, 4, 5, 6, 7], true, null, /2 more facts/],
    ['they are the same', [1, 2, 3, 4, 5], true, null, /0 more facts/],
    ['a fact in the middle is another', [1, 2, 9, 4, 5, 6], false, 2, /fork at fact 2/],
    ['the first fact is another', [9, 2, 3, 4, 5], false, 0, /fork at fact 0/],
    ['the later one is shorter', [1, 2, 3], false, null, /2 facts were lost/],
    ['the later one is empty', [], false, null, /5 facts were lost/],
  ] as const)('%s', (...[, counts, goesOn, fork, detail]) => {
    const found = compareExports(OLD, journal(counts));
    expect(found).toMatchObject({ extends: goesOn, fork });
    expect(found.detail).toMatch(detail);
  });

  it('one pack alone, or something else, proves nothing', () => {
    expect(compareExports(OLD, journal([1, 2], 'pack-1')).extends).toBe(false);
    expect(compareExports(OLD, new Uint8Array(9)).extends).toBe(false);
  });
});
