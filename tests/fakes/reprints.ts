/** Reprints for tests: over these facts, with a proof that is made at once. */
import type { Fact } from '../../src/domain/fact';
import { ok, refused } from '../../src/domain/result';
import { Reprints } from '../../src/kiosk/record/reprints';

export function reprintsOf(facts: readonly Fact[], isBroken = false): Reprints {
  return new Reprints({
    ledger: {
      head: () => Promise.resolve(ok({ size: facts.length, root: '' })),
      range: (from, count) =>
        Promise.resolve(isBroken ? refused('corrupt', 'damaged') : ok(facts.slice(from, from + count))),
      read: (pack) => Promise.resolve(ok(facts.filter((fact) => fact.pack === pack))),
    },
    proofOf: () => Promise.resolve({ state: 'failed', why: 'no code in this test' }),
    now: () => '2026-12-01T10:00:00+00:00',
    onChange: () => undefined,
  });
}
