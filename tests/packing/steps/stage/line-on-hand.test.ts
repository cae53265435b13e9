/** A pack that could not end as its plan states does not begin, and stows for which the line does not reach are not made. */
import { describe, expect, it } from 'vitest';
import type { Loft } from '../../../../src/domain/loft';
import type { Procedure, Stage } from '../../../../src/domain/procedure';
import type { StowPlan } from '../../../../src/domain/stow/stow-plan';
import { lineFault } from '../../../../src/packing/steps/stage/kinds/stow/line-on-hand';
import { step } from '../../autopilot';
import { LOFT, SPRAT } from '../../fixture';
import { PackDriver } from '../../pack-driver';

const inches = (value: number) => ({ value, unit: 'in' as const });

const withPlan = (differing: Partial<StowPlan>): Procedure => ({
  ...SPRAT,
  stages: SPRAT.stages.map((stage): Stage =>
    stage.kind === 'stow' ? { ...stage, plan: { ...stage.plan, ...differing } } : stage,
  ),
});

const withoutRest: Procedure = {
  ...SPRAT,
  stages: SPRAT.stages
    .filter(({ id }) => id !== 'rest')
    .map((stage, index): Stage => ({
      ...stage,
      number: index + 1,
      hold: stage.hold?.id === 'closing' ? stage.hold : null,
    })),
};
const withoutHolds: Procedure = { ...SPRAT, stages: SPRAT.stages.map((stage): Stage => ({ ...stage, hold: null })) };

/** What a pack of this procedure comes to: the check lines of its block, or the signed record. */
function outcome(procedure: Procedure): string {
  const loft: Loft = { ...LOFT, procedures: [procedure] };
  const driver = new PackDriver({ loft });
  for (let steps = 0; steps < 200 && driver.task.kind !== 'blocked' && step(driver); steps += 1);
  const { task } = driver;
  return task.kind === 'blocked' ? task.checks.map(({ label, detail }) => `${label}: ${detail}`).join(' ') : task.kind;
}

describe('a procedure that no check of files let through is not packed by', () => {
  it('whose remainder nobody measures', () => {
    expect(outcome(withoutRest)).toMatch(/^Stage 5: Nobody measures what these stows leave\./);
  });

  it('whose stated remainder cannot be reached from every line that may be measured', () => {
    // 98 to 102 in may be measured and leave 17 to 21 in; 18 to 20 in are stated.
    expect(outcome(withPlan({ under: inches(1), over: inches(1) }))).toMatch(/^Stage 5: With 98 in, which "line" lets/);
  });

  it('that lets no line at all remain', () => {
    // 108 in less 6 stows of 2 x 4 + 10 in leave nothing; "0 in" within 0 to 0 was signed.
    const none = { span: inches(10), line: inches(108), remainder: inches(0), under: inches(0), over: inches(0) };
    expect(outcome(withPlan(none))).toMatch(/^Stage 5: The plan states a remainder of 0 in, .* no line at all remain/);
  });

  it('that has no hold and does not say why, or has holds and says that it has none', () => {
    expect(outcome(withoutHolds)).toMatch(/^Procedure: Nobody inspects anything/);
    expect(outcome({ ...SPRAT, noHolds: 'A second rigger looks on throughout.' })).toMatch(
      /^Procedure: "noHolds" gives/,
    );
    expect(outcome({ ...withoutHolds, noHolds: 'A second rigger looks on throughout.' })).toBe('recorded');
  });

  it('but the same procedure without these faults is', () => expect(outcome(SPRAT)).toBe('recorded'));
});

describe('the line on hand', () => {
  const stage = SPRAT.stages.find(({ id }) => id === 'stows');
  if (stage?.kind !== 'stow') throw new Error('the stage stows');
  const begunWith = (value: number) => {
    const work = { confirmed: false, counted: null, stows: 0, measured: inches(value), itemMoved: false, by: null };
    return lineFault({ stages: new Map([['line', work]]) }, stage)?.detail ?? null;
  };

  it('that reaches is no matter', () => expect([98, 100, 102].map(begunWith)).toEqual([null, null, null]));

  it('that does not reach stops the stage with a sentence', () => {
    expect(begunWith(81)).toBe(
      'Not enough line for stage 5: 81 in on hand leaves 0 in, and 16 in to 22 in must remain. ' +
        'Do not stow. Call the lead, then go back to an earlier stage, or stop and tag.',
    );
    expect(begunWith(80)).toContain('leaves -1 in');
    expect(begunWith(110)).toMatch(/^Too much line for stage 5: 110 in on hand leaves 29 in/);
  });
});
