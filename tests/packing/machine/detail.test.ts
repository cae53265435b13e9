/** What the screens are given to draw, where a wrong figure would mislead. */
import { describe, expect, it } from 'vitest';
import type { Loft } from '../../../src/domain/loft';
import type { Hold } from '../../../src/domain/procedure';
import type { Detail } from '../../../src/packing/machine/view';
import { reach, sendBack } from '../autopilot';
import { LOFT, SPRAT } from '../fixture';
import { PackDriver } from '../pack-driver';

const inches = (value: number) => ({ value, unit: 'in' as const });

const at = (place: string, loft: Loft = LOFT): PackDriver => {
  const driver = new PackDriver({ loft });
  reach(driver, place);
  return driver;
};

function detail<S extends Detail['screen']>(driver: PackDriver, screen: S): Extract<Detail, { screen: S }> {
  const found = driver.view.detail;
  if (found.screen !== screen) throw new Error(`stands at ${found.screen}`);
  return found as Extract<Detail, { screen: S }>;
}

/** The fixture's loft with another hold after the stage "Tie the nose". */
function withLayoutHold(findings: Hold['findings']): Loft {
  const stages = SPRAT.stages.map((stage) =>
    stage.hold?.id === 'layout' ? { ...stage, hold: { ...stage.hold, findings } } : stage,
  );
  return { ...LOFT, procedures: [{ ...SPRAT, stages }] };
}

describe('the stow ledger', () => {
  it('tells what was used, and nothing of what should be left: that is measured next', () => {
    const driver = at('stage:line');
    driver.command({ name: 'measured', value: 99, unit: 'in' });
    driver.command({ name: 'affirm' });
    driver.command({ name: 'stow' });
    driver.command({ name: 'stow' });
    // Two stows of 2 x 4 + 5 1/2 = 13 1/2 in each: 27 used.
    expect(detail(driver, 'stage').stow).toEqual({
      done: 2,
      planned: 6,
      least: null,
      wanted: null,
      nextSide: 'left',
      nextLoop: null,
      loops: null,
      leadIn: null,
      sides: ['left', 'right', 'left', 'right', 'left', 'right'],
      viewpoint: 'as seen from the mouth of the bag',
      bight: inches(4),
      span: inches(5.5),
      wraps: 2,
      lineAtStart: null,
      lineUsed: inches(27),
      lineLeft: null,
      remainder: null,
    });
  });
});

describe('the measuring stage', () => {
  it('shows its band, computed from the line that was measured, only once a reading was given', () => {
    const driver = at('stage:line');
    expect(detail(driver, 'stage').measure).toEqual({ what: 'the line', band: null, outside: null });
    driver.command({ name: 'measured', value: 101, unit: 'in' });
    reach(driver, 'stage:rest');
    expect(detail(driver, 'stage').measure).toEqual({ what: 'the rest of the line', band: null, outside: null });
    driver.command({ name: 'measured', value: 30, unit: 'in' });
    expect(detail(driver, 'stage').measure?.band).toBeNull();
    driver.command({ name: 'affirm' });
    // 20 + 3 is more than the 19 + 3 that the plan states.
    const band = { expected: inches(20), lowest: inches(17), highest: inches(22) };
    const outside = { value: inches(30), deviation: 10, unit: 'in' };
    expect(detail(driver, 'stage').measure).toEqual({ what: 'the rest of the line', band, outside });
  });

  it('shows the last value outside until it is undone or put right', () => {
    const driver = at('stage:rest');
    const outside = () => detail(driver, 'stage').measure?.outside;
    driver.command({ name: 'measured', value: 23, unit: 'in' });
    expect(outside()).toBeNull();
    driver.command({ name: 'affirm' });
    expect(outside()).toEqual({ value: inches(23), deviation: 4, unit: 'in' });
    driver.command({ name: 'correction' });
    driver.command({ name: 'affirm' });
    reach(driver, 'stage:rest');
    expect(outside()).toBeNull();
  });
});

describe('the hold', () => {
  it('shows who is present and until when, and nobody while waiting', () => {
    const driver = at('hold:stowing');
    expect(detail(driver, 'hold')).toMatchObject({
      number: 2,
      of: 3,
      phase: 'waiting',
      inspector: null,
      deadline: null,
    });
    driver.badge('B-ines');
    const scannedAt = driver.ms;
    const shown = detail(driver, 'hold');
    expect(shown).toMatchObject({ phase: 'inspecting', inspector: 'Ines', inspectorClass: 'in-process' });
    expect(Date.parse(shown.deadline ?? '')).toBe(scannedAt + 120_000);
    driver.command({ name: 'returnHold' });
    driver.command({ name: 'finding', number: 1 });
    driver.command({ name: 'affirm' });
    expect(detail(driver, 'hold')).toMatchObject({ phase: 'choosingStage' });
    expect(driver.view.readBack?.show).toContain('Return: Stow too long');
  });

  it('shows that an inspector was called until there is a verdict', () => {
    const driver = at('hold:layout');
    expect(detail(driver, 'hold').called).toBe(false);
    driver.command({ name: 'callInspector' });
    expect(detail(driver, 'hold').called).toBe(true);
    sendBack(driver, 2);
    reach(driver, 'restore:out:noseTie');
    reach(driver, 'hold:layout');
    expect(detail(driver, 'hold').called).toBe(false);
  });

  it.each(['close', 'nowhere'])(
    'never goes back to a later stage or to none, even if the finding says %s',
    (backTo) => {
      const driver = at('inspecting', withLayoutHold([{ id: 'odd', text: 'Odd', backTo }]));
      driver.command({ name: 'returnHold' });
      driver.command({ name: 'finding', number: 1 });
      driver.command({ name: 'affirm' });
      expect(driver.view.readBack?.show).toContain('Back to stage 3, Tie the nose');
    },
  );

  it('can be returned when the procedure names no finding', () => {
    const driver = at('inspecting', withLayoutHold([]));
    driver.command({ name: 'returnHold' });
    expect(detail(driver, 'hold').findings).toEqual([
      { number: 1, text: 'Other' },
      { number: 2, text: 'Damage' },
    ]);
    driver.command({ name: 'finding', number: 1 });
    driver.command({
      name: 'finding',
      number: driver.view.legal[0]?.input.kind === 'choice' ? driver.view.legal[0].input.options.length : 0,
    });
    driver.command({ name: 'affirm' });
    driver.command({ name: 'affirm' });
    expect(driver.facts.at(-1)?.body).toMatchObject({ kind: 'holdReturned', finding: 'other', backTo: 'tie' });
  });
});

describe('the controls of a return', () => {
  const control = (driver: PackDriver, name: 'finding' | 'goToStage') =>
    driver.view.legal.find((one) => one.name === name);

  it('offer each finding by its number, with one of them as the phrase', () => {
    const driver = at('hold:layout');
    driver.badge('B-ines');
    driver.command({ name: 'returnHold' });
    expect(control(driver, 'finding')).toEqual({
      name: 'finding',
      label: 'Finding',
      phrase: 'finding four',
      input: {
        kind: 'choice',
        options: [
          { number: 1, label: 'Cells twisted' },
          { number: 2, label: 'Tie loose' },
          { number: 3, label: 'Other' },
          { number: 4, label: 'Damage' },
        ],
        note: null,
      },
      main: true,
    });
  });

  it('offer each stage up to that of the hold, and none behind it', () => {
    const driver = at('hold:layout');
    driver.badge('B-ines');
    driver.command({ name: 'returnHold' });
    driver.command({ name: 'finding', number: 1 });
    expect(control(driver, 'goToStage')).toEqual({
      name: 'goToStage',
      label: 'Stage',
      phrase: 'go to stage three',
      input: {
        kind: 'choice',
        options: [
          { number: 1, label: 'Lay out' },
          { number: 2, label: 'Count the cells' },
          { number: 3, label: 'Tie the nose' },
        ],
        note: null,
      },
      main: false,
    });
  });
});

describe('the other screens', () => {
  it('identify shows what is missing, read back and affirmed', () => {
    const driver = new PackDriver({ loft: LOFT });
    driver.component('P1-CANOPY');
    driver.command({ name: 'affirm' });
    driver.component('P1-BAG');
    expect(detail(driver, 'identify').slots).toEqual([
      { component: 'bag', serial: 'P1-BAG', state: 'readBack' },
      { component: 'container', serial: null, state: 'missing' },
      { component: 'canopy', serial: 'P1-CANOPY', state: 'affirmed' },
    ]);
  });

  it('check-in shows the tools that have been counted and the line that is due', () => {
    const shown = detail(at('toolOut:cord'), 'checkIn');
    expect(shown).toMatchObject({ assembly: 'Assembly P1', procedure: 'Sprat main, revision C', current: 1 });
    expect(shown.tools.map(({ planned, counted }) => [planned, counted])).toEqual([
      [2, 2],
      [null, null],
    ]);
    expect(shown.checks.every(({ passed }) => passed)).toBe(true);
  });

  it('close-up shows the tools that are back', () => {
    const shown = detail(at('toolBack:cord'), 'closeUp');
    expect(shown.tools.map(({ issued, returned }) => [issued, returned])).toEqual([
      [2, 2],
      [null, null],
    ]);
  });

  it('a temporary item that must be put right is a step of its own', () => {
    const driver = at('inspecting');
    driver.command({ name: 'returnHold' });
    driver.command({ name: 'finding', number: 1 });
    reach(driver, 'restore:out:noseTie');
    expect(detail(driver, 'stage')).toMatchObject({
      kind: 'restore',
      number: 2,
      item: { name: 'nose tie', direction: 'out' },
      itemsIn: ['nose tie'],
    });
  });

  it('progress counts the stages that are done, and falls back with a return', () => {
    expect(new PackDriver({ loft: LOFT }).view.progress).toBeNull();
    const driver = at('stage:line');
    expect(driver.view.progress).toEqual({ done: 3, of: 8 });
    reach(driver, 'hold:stowing');
    sendBack(driver, 2);
    reach(driver, 'stage:line');
    expect(driver.view.progress).toEqual({ done: 3, of: 8 });
  });
});
