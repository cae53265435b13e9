/** Stowing until the wanted remainder is reached: when it may end, what is said, and what is then measured. */
import { describe, expect, it } from 'vitest';
import type { Loft } from '../../../../src/domain/loft';
import type { Procedure, Stage } from '../../../../src/domain/procedure';
import type { StowPlan } from '../../../../src/domain/stow/stow-plan';
import { reach, step } from '../../autopilot';
import { LOFT, SPRAT } from '../../fixture';
import { PackDriver } from '../../pack-driver';

const inches = (value: number) => ({ value, unit: 'in' as const });

/**
 * Stows of 2 x 4 + 5 1/2 = 13 1/2 in from 100 in, after 6 in from the links: 4 leave 40, 5 leave 26 1/2, 6 leave 13 in.
 * 18 to 38 in are wanted. At worst 5 stows true to 1/8 in stray 5 x 3/8 + 1/8 = 2 in, 4 stray 1 5/8 in, 6 stray 2 3/8.
 */
const UNTIL: Partial<StowPlan> = {
  least: 3,
  stows: 7,
  leadIn: inches(6),
  remainder: inches(28),
  under: inches(10),
  over: inches(10),
};

const withPlan = (differing: Partial<StowPlan>): Procedure => ({
  ...SPRAT,
  stages: SPRAT.stages.map((stage): Stage =>
    stage.kind === 'stow' ? { ...stage, plan: { ...stage.plan, ...differing } } : stage,
  ),
});
const loftOf = (differing: Partial<StowPlan>): Loft => ({ ...LOFT, procedures: [withPlan(differing)] });

function stowing(stows: number, differing: Partial<StowPlan> = UNTIL): PackDriver {
  const driver = new PackDriver({ loft: loftOf(differing) });
  reach(driver, 'stage:stows');
  for (let n = 0; n < stows; n += 1) driver.command({ name: 'stow' });
  return driver;
}
const end = (driver: PackDriver): string => {
  driver.command({ name: 'stageComplete' });
  return driver.view.notice?.text ?? `${driver.task.kind}:${driver.task.kind === 'stage' ? driver.task.stage.id : ''}`;
};

describe('the stage ends', () => {
  it.each<[number, string]>([
    [2, 'Not complete: 1 of at least 3 stows is missing.'],
    [3, 'Not complete: with 3 stows more than 38 in would remain. Stow on.'],
    [5, 'stage:rest'],
    [6, 'Not complete: with 6 stows what remains cannot be 18 in to 38 in. Take stows back, or let the lead decide.'],
  ])('after %i stows: %s', (stows, said) => expect(end(stowing(stows))).toBe(said));

  it('and until then more stows may be made, as many as the plan allows', () => {
    const driver = stowing(5);
    const legal = () => driver.view.legal.filter(({ main }) => main).map(({ name }) => name);
    expect(legal()).toEqual(['stow', 'stageComplete']);
    driver.command({ name: 'count', count: 3, noun: 'stows' });
    expect(driver.view.notice?.text).toContain('3 stows more would be too many, 2 of 7 are left');
  });
});

describe('what is measured is compared', () => {
  const measured = (value: number): boolean | undefined => {
    const driver = stowing(5);
    end(driver);
    driver.command({ name: 'measured', value, unit: 'in' });
    driver.command({ name: 'affirm' });
    const body = driver.facts.at(-1)?.body;
    return body?.kind === 'measured' ? body.within : undefined;
  };

  it('with the stows that were made, as far as they stray at worst', () => {
    // 26 1/2 in, 2 in to each side.
    expect([24.5, 28.5].map(measured)).toEqual([true, true]);
  });

  it('and 20 in, which the plan wants, is not what five stows leave', () => {
    expect([20, 24.4375, 28.5625, 36].map(measured)).toEqual([false, false, false, false]);
  });

  it('with what is wanted too: what six stows leave is not', () => {
    // Six stows from 102 in leave 15 in, to 17 3/8 in at worst; 18 in at least are wanted.
    const driver = new PackDriver({ loft: loftOf({ ...UNTIL, under: inches(12) }) });
    reach(driver, 'stage:stows');
    for (let n = 0; n < 6; n += 1) driver.command({ name: 'stow' });
    // 16 in are wanted at least, 13 in should be left, to 15 3/8 in at worst.
    expect(end(driver)).toContain('what remains cannot be 16 in to 38 in');
  });
});

describe('the prompt and the ledger', () => {
  it('say how many, until what, from where, and whose left is meant, once', () => {
    const driver = stowing(0, { ...UNTIL, order: 'centreOut' });
    expect(driver.view.prompt.show).toContain(
      'Lay 6 in from the links to the first stow. 3 to 7 stows of 4 in, double wrap. ' +
        'Stow until 18 in to 38 in remain. Left and right are meant as seen from the mouth of the bag. ' +
        '0 stows, 3 to 7 may be made. Next, left, loop 1 from the centre.',
    );
    driver.command({ name: 'stow' });
    expect(driver.view.prompt.show).toBe('1 stow, 3 to 7 may be made. Next, right, loop 1 from the centre.');
    driver.command({ name: 'stow' });
    expect(driver.view.prompt.show).toBe('2 stows, 3 to 7 may be made. Next, left, loop 2 from the centre.');
  });

  it('offer the end when it may be the end', () => {
    expect(stowing(5).view.prompt.show).toBe(
      '5 stows, 3 to 7 may be made. Say stage complete if enough is stowed. Next, right.',
    );
  });

  it('show what is wanted, what should be left, and the loops', () => {
    const driver = stowing(2, { ...UNTIL, order: 'centreOut' });
    const { detail } = driver.view;
    expect(detail.screen === 'stage' ? detail.stow : null).toMatchObject({
      done: 2,
      least: 3,
      planned: 7,
      wanted: { lowest: inches(18), highest: inches(38) },
      lineUsed: inches(33),
      nextSide: 'left',
      nextLoop: 2,
      loops: [1, 1, 2, 2, 3, 3, 4],
      viewpoint: 'as seen from the mouth of the bag',
      leadIn: inches(6),
    });
  });
});

describe('the whole pack', () => {
  it('is signed with the number of stows that reached what is wanted', () => {
    const driver = new PackDriver({ loft: loftOf(UNTIL) });
    for (let steps = 0; steps < 200 && step(driver); steps += 1);
    expect(driver.task.kind).toBe('recorded');
    const stows = driver.facts.filter(({ body }) => body.kind === 'stowed');
    expect(stows).toHaveLength(5);
    expect(driver.facts.flatMap(({ body }) => (body.kind === 'measured' ? [body.value.value] : []))).toEqual([
      100, 26.5,
    ]);
  });
});
