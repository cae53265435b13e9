/** Folding facts that no sound machine wrote: what does not hold together never counts as done. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody } from '../../../src/domain/fact';
import { nextTask } from '../../../src/packing/state/next-task';
import { taskKey } from '../../../src/packing/state/task';
import { foldFacts } from '../../../src/packing/state/fold';
import { reach } from '../autopilot';
import { LOFT, SPRAT } from '../fixture';
import { PackDriver } from '../pack-driver';

/** The facts of a sound pack up to this place. */
function factsTo(place: string): readonly Fact[] {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place);
  return driver.facts;
}

function add(facts: readonly Fact[], ...bodies: readonly FactBody[]): readonly Fact[] {
  const next = (facts.at(-1)?.seq ?? -1) + 1;
  const at = '2026-11-25T12:00:00.000Z';
  return [...facts, ...bodies.map((body, index) => ({ pack: 'pack-1', at, by: null, body, seq: next + index }))];
}

const taskOf = (facts: readonly Fact[], loft = LOFT): string => taskKey(nextTask(loft, foldFacts(loft, facts)));
const releaseBy = (inspector: string, sighting: string): FactBody => ({
  kind: 'holdReleased',
  hold: 'layout',
  inspector,
  sighting,
  channel: 'voice',
});

describe('a release that opens nothing', () => {
  const present: FactBody = { kind: 'inspectorPresent', hold: 'layout', inspector: 'ines', sighting: 'x' };

  it('counts when it follows its own scan', () => {
    expect(taskOf(add(factsTo('hold:layout'), present, releaseBy('ines', 'x')))).toBe('stage:line');
  });
  it.each<readonly [string, readonly FactBody[]]>([
    ['without a scan', [releaseBy('ines', 'x')]],
    ['on another scan', [present, releaseBy('ines', 'y')]],
    ['by the packer', [{ ...present, inspector: 'ada' } as FactBody, releaseBy('ada', 'x')]],
    [
      'followed by its inspector packing',
      [present, releaseBy('ines', 'x'), { kind: 'handedOver', from: 'ada', to: 'ines', sighting: 'z' }],
    ],
  ])('%s', (_, bodies) => {
    expect(taskOf(add(factsTo('hold:layout'), ...bodies))).toBe('hold:layout');
  });

  it('before its stage is done', () => {
    const early = add(factsTo('stage:tie'), present, releaseBy('ines', 'x'), {
      kind: 'itemPlaced',
      stage: 'tie',
      item: 'noseTie',
    });
    expect(taskOf(early)).toBe('hold:layout');
  });
});

describe('a return', () => {
  const returned = (backTo: string): FactBody => ({
    kind: 'holdReturned',
    hold: 'layout',
    inspector: 'ines',
    sighting: 'x',
    finding: 'twist',
    backTo,
    channel: 'voice',
  });

  it('to a stage that the procedure does not know goes back to the first', () => {
    expect(
      taskOf(add(factsTo('hold:layout'), returned('nowhere'), { kind: 'itemRemoved', stage: null, item: 'noseTie' })),
    ).toBe('stage:lay');
  });

  it('in a pack whose procedure is gone leaves it blocked', () => {
    expect(taskOf(add(factsTo('hold:layout'), returned('cells')), { ...LOFT, procedures: [] })).toBe('blocked');
  });
});

describe('a correction that takes nothing back', () => {
  it('of a verdict, a check, a hand-over, or something that is not there', () => {
    const facts = factsTo('stage:line');
    for (const fact of facts) {
      if (
        ['holdReleased', 'checkInPassed', 'assemblyAgreed', 'packOpened', 'inspectorPresent'].includes(fact.body.kind)
      ) {
        expect(taskOf(add(facts, { kind: 'corrected', fact: fact.seq }))).toBe('stage:line');
      }
    }
    expect(taskOf(add(facts, { kind: 'corrected', fact: 999 }))).toBe('stage:line');
  });

  it('of a fact that comes only later', () => {
    const facts = factsTo('stage:lay');
    const next = (facts.at(-1)?.seq ?? 0) + 1;
    const confirmed: FactBody = { kind: 'stageConfirmed', stage: 'lay', channel: 'voice' };
    expect(taskOf(add(facts, { kind: 'corrected', fact: next + 1 }, confirmed))).toBe('stage:cells');
  });

  it('of work before a verdict voids the verdict with it', () => {
    const facts = factsTo('stage:line');
    const tie = facts.find(({ body }) => body.kind === 'itemPlaced');
    expect(taskOf(add(facts, { kind: 'corrected', fact: tie?.seq ?? -1 }))).toBe('stage:tie');
  });
});

describe('work that is not enough', () => {
  it('a wrong count, too many or too few stows, a stage that the procedure does not know', () => {
    const cells = factsTo('stage:cells');
    expect(taskOf(add(cells, { kind: 'counted', stage: 'cells', noun: 'cells', count: 6 }))).toBe('stage:cells');
    expect(taskOf(add(cells, { kind: 'stageConfirmed', stage: 'nowhere', channel: 'voice' }))).toBe('stage:cells');
    const stows = factsTo('stage:stows');
    const seven: FactBody = { kind: 'stowed', stage: 'stows', count: 7, total: 6, lastSide: 'left' };
    const end: FactBody = { kind: 'stageConfirmed', stage: 'stows', channel: 'voice' };
    expect(taskOf(add(stows, seven, end))).toBe('stage:stows');
    expect(taskOf(add(stows, end))).toBe('stage:stows');
  });

  it('a check-in that is called passed while a line of it failed', () => {
    const facts = factsTo('toolOut:paddle').map((fact) =>
      fact.body.kind === 'checkInPassed'
        ? {
            ...fact,
            body: { ...fact.body, checks: [...fact.body.checks, { label: 'Bag', passed: false, detail: 'no' }] },
          }
        : fact,
    );
    expect(taskOf(facts)).toBe('blocked');
  });

  it('a check-in that is called failed, though each line of it passed', () => {
    const facts = factsTo('toolOut:paddle').map((fact) =>
      fact.body.kind === 'checkInPassed' ? { ...fact, body: { ...fact.body, kind: 'checkInFailed' as const } } : fact,
    );
    expect(taskOf(facts)).toBe('blocked');
  });
});

describe('a pack that is not whole at its end', () => {
  it('is blocked when fewer tools are back than went out', () => {
    const facts = factsTo('sign').map((fact) =>
      fact.body.kind === 'toolReturned' ? { ...fact, body: { ...fact.body, count: 0 } } : fact,
    );
    const task = nextTask(LOFT, foldFacts(LOFT, facts));
    expect(task.kind).toBe('blocked');
    if (task.kind !== 'blocked') return;
    const failed = task.checks.filter(({ passed }) => !passed);
    expect(failed).toEqual([
      { label: 'Tools back', passed: false, detail: 'Not back: Packing paddle and Pull-up cord.' },
    ]);
  });

  it('asks for a temporary item that went in after the last stage', () => {
    const again: FactBody = { kind: 'itemPlaced', stage: null, item: 'noseTie' };
    expect(taskOf(add(factsTo('toolBack:paddle'), again))).toBe('restore:out:noseTie');
    expect(taskOf(add(factsTo('sign'), again))).toBe('restore:out:noseTie');
  });

  it('is blocked by an item that the procedure does not know', () => {
    expect(taskOf(add(factsTo('sign'), { kind: 'itemPlaced', stage: null, item: 'strange' }))).toBe('blocked');
  });

  it('is blocked by a procedure that leaves an item in', () => {
    const stages = SPRAT.stages.filter(({ id }) => id !== 'untie');
    const loft = { ...LOFT, procedures: [{ ...SPRAT, stages }] };
    const driver = new PackDriver({ loft });
    reach(driver, 'blocked');
    expect(driver.view.detail).toMatchObject({ screen: 'blocked' });
    expect(driver.view.prompt.say).toContain('Still in: nose tie');
  });
});

describe('a loft that has changed since the pack began', () => {
  it.each([
    ['the procedure has another revision', [{ ...SPRAT, revision: 'D' }]],
    ['the procedure is gone', []],
  ])('blocks the pack: %s', (_, procedures) => {
    expect(taskOf(factsTo('stage:line'), { ...LOFT, procedures })).toBe('blocked');
  });

  it('leaves a signed pack signed', () => {
    expect(taskOf(factsTo('recorded'), { ...LOFT, procedures: [] })).toBe('recorded');
  });

  it('goes no further with an assembly that it no longer has', () => {
    const loft = { ...LOFT, assemblies: [] };
    for (const place of ['hold:layout', 'sign', 'stage:line']) {
      const driver = new PackDriver({ loft, facts: factsTo(place), at: '2026-11-25T12:00:00.000Z' });
      expect(driver.phase).toBe('standingBy');
      driver.badge('B-ada');
      expect(driver.phase).toBe('blocked');
      expect(driver.view.prompt.say).toContain('The loft no longer has this assembly.');
      driver.badge('B-ines');
      driver.command({ name: 'standBy' });
      driver.badge('B-ben');
      expect(driver.facts.filter(({ body }) => body.kind === 'inspectorPresent' || body.kind === 'handedOver')).toEqual(
        factsTo(place).filter(({ body }) => body.kind === 'inspectorPresent'),
      );
    }
  });
});

describe('facts that end a pack', () => {
  it.each<[string, FactBody]>([['stopped', { kind: 'stopped', reason: 'Torn.' }]])(
    'end it also while it stands by: %s',
    (phase, body) => {
      const facts = add(factsTo('stage:line'), { kind: 'stoodBy' }, body);
      expect(new PackDriver({ loft: LOFT, facts }).phase).toBe(phase);
    },
  );

  it('are all of their own pack', () => {
    expect(new Set(factsTo('recorded').map(({ pack }) => pack))).toEqual(new Set(['pack-1']));
  });
});
