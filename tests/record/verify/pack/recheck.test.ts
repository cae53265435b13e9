/** Checks that were made again, and a clock that was set back: what the verifier makes of them from the journal alone. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody } from '../../../../src/domain/fact';
import { findingsOf, verdictOf } from '../remade-story';

const last = (kind: FactBody['kind'], change: (fact: Fact) => Fact | null) => (facts: readonly Fact[]) => {
  const at = facts.findLastIndex(({ body }) => body.kind === kind);
  return facts.flatMap((fact, index) => (index === at ? (change(fact) ?? []) : [fact]));
};
const shifted = (fact: Fact, ms: number): Fact => ({ ...fact, at: new Date(Date.parse(fact.at) + ms).toISOString() });
const DAY = 86_400_000;

describe('a signature', () => {
  it('without the checks of the same moment is found', async () => {
    const { findings } = await verdictOf(last('recheckPassed', () => null));
    expect(findings.map(({ detail }) => detail)).toContainEqual(expect.stringMatching(/checks were not made again/));
  });

  it('with checks of an earlier moment is found', async () => {
    const { findings } = await verdictOf(last('recheckPassed', (fact) => shifted(fact, -1_000)));
    expect(findings.map(({ detail }) => detail)).toContainEqual(expect.stringMatching(/checks were not made again/));
  });

  it('of a pack of the first edition needs none', async () => {
    const { findings } = await verdictOf((facts) =>
      last(
        'recheckPassed',
        () => null,
      )(facts).map((fact) => {
        if (fact.body.kind !== 'packOpened') return fact;
        return { ...fact, body: { ...fact.body, edition: 1 } };
      }),
    );
    expect(findings.map(({ detail }) => detail)).not.toContainEqual(expect.stringMatching(/made again/));
  });

  it('twenty-five days after a check-in on the last day of life is found, whatever the checks are said to have found', async () => {
    const { findings } = await verdictOf((facts) => {
      const at = facts.findLastIndex(({ body }) => body.kind === 'recheckPassed');
      return facts.map((fact, index) => {
        const late = index >= at ? shifted(fact, 25 * DAY) : fact;
        if (late.body.kind !== 'procedureInForce' || late.pack !== facts.at(-1)?.pack) return late;
        const { assembly } = late.body;
        const components = assembly.components.map((one) => ({ ...one, madeOn: '2016-12-01', lifeYearsFromMade: 10 }));
        return { ...late, body: { ...late.body, assembly: { ...assembly, components } } };
      });
    });
    expect(findings.map(({ detail }) => detail)).toContainEqual(expect.stringMatching(/beyond life/));
  });
});

describe('the clock', () => {
  it('that jumped is a note and no finding', async () => {
    const verdict = await verdictOf((facts) => facts);
    expect(verdict.findings).toEqual([]);
    expect(verdict.jumps).toHaveLength(1);
  });

  it('set back between two packs without a jump on record is found', async () => {
    const found = await findingsOf((fact) => (fact.pack === 'pack-0002' ? shifted(fact, -2 * DAY) : fact));
    expect(found).toContainEqual(expect.stringMatching(/dated before one of another pack/));
  });

  it('set back between two packs does not make an expired inspector good', async () => {
    // Ten years on in the first pack; the jump back stands on record at the beginning of the second.
    const { findings } = await verdictOf((facts) => {
      const ahead = facts.map((fact) => (fact.pack === 'pack-0001' ? shifted(fact, 3_700 * DAY) : fact));
      const first = ahead.findIndex(({ pack }) => pack === 'pack-0002');
      const next = ahead[first];
      const before = ahead[first - 1];
      if (next === undefined || before === undefined) throw new Error('the story has two packs');
      const opened = { ...next, body: { ...next.body, journalDay: before.at.slice(0, 10) } } as Fact;
      const body: FactBody = { kind: 'clockJumped', from: before.at, to: next.at };
      return ahead.toSpliced(first, 1, { ...next, seq: facts.length, by: null, body }, opened);
    });
    expect(findings.map(({ detail }) => detail)).toContainEqual(expect.stringMatching(/tomas-veller is expired/));
  });
});
