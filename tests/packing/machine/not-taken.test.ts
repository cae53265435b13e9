/** What is not taken, and the sentence that says so: what is wrong, then what to do. */
import { describe, expect, it } from 'vitest';
import type { Command } from '../../../src/domain/command';
import type { Unit } from '../../../src/domain/quantity';
import { reach } from '../autopilot';
import { LOFT, SPRAT } from '../fixture';
import { PackDriver } from '../pack-driver';
import { parseCommand } from '../story';

const at = (place: string, loft = LOFT): PackDriver => {
  const driver = new PackDriver({ loft });
  reach(driver, place);
  return driver;
};
const notice = ({ view }: PackDriver): string | undefined => view.notice?.text;
const readBack = ({ view }: PackDriver): string | undefined => view.readBack?.show;
const hear = (driver: PackDriver, ...lines: readonly string[]): PackDriver => {
  for (const line of lines) driver.command(parseCommand(line.split(' ')) satisfies Command);
  return driver;
};

describe('a component that is not taken', () => {
  it.each<[string, (driver: PackDriver) => void, string]>([
    [
      'a serial that nobody knows',
      (driver) => driver.component('X-1'),
      'The loft does not know this serial. Take another component, or ask the lead.',
    ],
    [
      'the same component again',
      (driver) => driver.component('P1-BAG'),
      'This bag has been identified already. Scan another component.',
    ],
    [
      'one of another assembly',
      (driver) => driver.component('P2-CANOPY'),
      'This canopy belongs to Assembly P2, but this pack has begun with Assembly P1. Take the right canopy.',
    ],
    ['a badge', (driver) => driver.badge('B-ada'), 'That is a badge. Scan a component label.'],
    [
      'a damaged label',
      (driver) => driver.scan({ kind: 'refused', reason: 'check', detail: 'The label is damaged.' }, '??'),
      'The label is damaged. Scan a component label.',
    ],
    ['the same scan again', (driver) => driver.rescan(), 'That scan has been used already. Scan the label again.'],
  ])('%s', (_name, act, text) => {
    const driver = new PackDriver({ loft: LOFT });
    driver.component('P1-BAG');
    driver.command({ name: 'affirm' });
    act(driver);
    expect(notice(driver)).toBe(text);
    expect(driver.view.notice?.tone).toBe('refusal');
    expect(readBack(driver)).toBeUndefined();
  });

  it('one of an assembly that is being packed elsewhere', () => {
    const driver = new PackDriver({ loft: LOFT, openElsewhere: ['P1-CANOPY'] });
    driver.component('AWAY-BAG');
    expect(notice(driver)).toBe('Assembly AWAY is being packed at Table 2. Take another assembly.');
    driver.component('P1-CANOPY');
    expect(notice(driver)).toBe('This canopy lies in another open pack. Finish that one first, or take another.');
  });

  it('a second one of its kind', () => {
    const driver = new PackDriver({ loft: LOFT });
    driver.component('TWOBAGS-BAG');
    driver.command({ name: 'affirm' });
    driver.component('TWOBAGS-BAG-2');
    expect(notice(driver)).toBe('A bag has been identified already. Say correction to change it.');
  });
});

describe('a count that is not taken', () => {
  it.each([
    [
      'toolOut:paddle',
      'Not taken: Packing paddle: 3 tools counted, 2 planned. Lay out exactly 2, then count again.',
      3,
    ],
    [
      'toolBack:paddle',
      'Not taken: Packing paddle: 2 went out, 1 counted, 1 missing. ' +
        'Look on the table and in the tray, then count again. ' +
        'If it may be inside, say reopen stage and the number of the stage to look in.',
      1,
    ],
    [
      'toolCheck:paddle',
      'Not taken: Packing paddle: 2 went out, 0 counted, 2 missing. ' +
        'Look on the table and in the tray, then count again. ' +
        'If it may be inside, say reopen stage and the number of the stage to look in.',
      0,
    ],
    [
      'toolBack:paddle',
      'Not taken: Packing paddle: 2 went out, 4 counted, 2 too many. ' +
        'Look on the table and in the tray, then count again.',
      4,
    ],
  ])('at %s: %s', (place, text, count) => {
    const driver = hear(at(place), `count ${String(count)} tools`);
    expect(readBack(driver)).toBe(`Packing paddle: ${String(count)} ${count === 1 ? 'tool' : 'tools'}. Is that right?`);
    hear(driver, 'affirm');
    expect(notice(driver)).toBe(text);
    expect(driver.view.notice?.tone).toBe('refusal');
  });

  it.each(['toolOut:paddle', 'toolCheck:paddle', 'toolBack:paddle', 'stage:cells'])(
    'at %s: what is no count is not even read back',
    (place) => {
      const noun = place === 'stage:cells' ? 'cells' : 'tools';
      for (const count of ['201', '-1', '1.5', 'NaN', '1000000']) {
        const driver = hear(at(place), `count ${count} ${noun}`);
        expect(notice(driver)).toBe('That is no count. Count again.');
        expect(readBack(driver)).toBeUndefined();
      }
      for (const count of ['200', '0']) expect(readBack(hear(at(place), `count ${count} ${noun}`))).toContain(count);
    },
  );

  it('of tools that come back is measured by what went out, not by the plan', () => {
    const facts = at('toolBack:paddle').facts.map((fact) =>
      fact.body.kind === 'toolIssued' && fact.body.tool === 'paddle'
        ? { ...fact, body: { ...fact.body, count: 3 } }
        : fact,
    );
    const driver = hear(new PackDriver({ loft: LOFT, facts }), 'count 2 tools', 'affirm');
    expect(notice(driver)).toContain('Packing paddle: 3 went out, 2 counted, 1 missing.');
    expect(hear(driver, 'count 3 tools', 'affirm').task).toMatchObject({ kind: 'toolBack', tool: { id: 'cord' } });
  });

  it('of cells says both numbers', () => {
    const driver = hear(at('stage:cells'), 'count 6 cells', 'affirm');
    expect(notice(driver)).toBe('Not taken: 6 cells counted, 7 expected. Count again, or let the inspector decide.');
  });
});

describe('stows that are not taken', () => {
  it('more than are left, with how many that are', () => {
    const driver = hear(at('stage:stows'), 'stow', 'stow', 'count 5 stows');
    expect(notice(driver)).toBe('Not taken: 5 stows more would be too many, 4 of 6 are left. Count the stows again.');
    expect(readBack(hear(driver, 'count 4 stows'))).toBe('4 more stows, 6 of 6. Is that right?');
  });

  it('none, or what is no count', () => {
    for (const count of ['0', '-2', '1.5', '201']) {
      expect(notice(hear(at('stage:stows'), `count ${count} stows`))).toBe('Count at least one stow.');
    }
    expect(readBack(hear(at('stage:stows'), 'count 1 stows'))).toBe('1 more stow, 1 of 6. Is that right?');
  });

  it('an end before the last one, with how many are missing', () => {
    expect(notice(hear(at('stage:stows'), 'stageComplete'))).toBe('Not complete: 6 of 6 stows are missing.');
    const driver = hear(at('stage:stows'), 'count 5 stows', 'affirm', 'stageComplete');
    expect(notice(driver)).toBe('Not complete: 1 of 6 stows is missing.');
  });

  it('are recorded with their number, total and side', () => {
    const driver = hear(at('stage:stows'), 'stow', 'count 4 stows', 'affirm');
    expect(driver.facts.slice(-2).map(({ body }) => body)).toEqual([
      { kind: 'stowed', stage: 'stows', count: 1, total: 1, lastSide: 'left' },
      { kind: 'stowed', stage: 'stows', count: 4, total: 5, lastSide: 'left' },
    ]);
  });

  it('are offered up to what is left, five at most as the example', () => {
    const control = (driver: PackDriver, name: string) => driver.view.legal.find((one) => one.name === name);
    const driver = at('stage:stows');
    const label = 'Count stows';
    const input = { kind: 'count', noun: 'stows' };
    expect(control(driver, 'count')).toMatchObject({ label, phrase: 'five stows', input: { ...input, max: 6 } });
    expect(control(driver, 'stageComplete')?.main).toBe(false);
    hear(driver, 'count 4 stows', 'affirm');
    expect(control(driver, 'count')).toMatchObject({ label, phrase: 'two stows', input: { ...input, max: 2 } });
    hear(driver, 'stow', 'stow');
    expect(control(driver, 'stageComplete')?.main).toBe(true);
    expect(control(driver, 'count')).toBeUndefined();
  });
});

describe('a length that is not taken', () => {
  it('is told by how much it is off, what is allowed, and what can be done', () => {
    expect(notice(hear(at('stage:line'), 'measured 102.5 in', 'affirm'))).toBe(
      'Outside: the line is 102 1/2 in, 2 1/2 in too long. 100 in is expected, 98 in to 102 in is allowed. ' +
        'Measure again, or let the inspector decide.',
    );
    const driver = hear(at('stage:rest'), 'measured 15 in', 'affirm');
    expect(notice(driver)).toBe(
      'Outside: the rest of the line is 15 in, 4 in too short. 19 in is expected, 16 in to 22 in is allowed. ' +
        'Measure again, say correction to take back what was done before, or let the inspector decide.',
    );
    expect(driver.view.notice?.tone).toBe('warning');
  });

  it.each(['-0.5', '10000', 'NaN'])('%s in is no length that can be right', (value) => {
    const driver = hear(at('stage:line'), `measured ${value} in`);
    expect(notice(driver)).toBe('That is no length that can be right. Measure again.');
    expect(readBack(driver)).toBeUndefined();
  });

  it('is read back up to the longest, and none at all is a length', () => {
    expect(readBack(hear(at('stage:line'), 'measured 9999 in'))).toBe('The line: 9999 in. Is that right?');
    expect(readBack(hear(at('stage:line'), 'measured 0 in'))).toBe('The line: 0 in. Is that right?');
  });

  it.each<[Unit, string]>([
    ['in', 'seven six inches'],
    ['ft', 'seven six feet'],
    ['cm', 'seven six centimetres'],
    ['mm', 'seven six millimetres'],
  ])('is asked for in %s, and without a unit that one is meant', (unit, phrase) => {
    const length = (value: number) => ({ value, unit });
    const target = { from: 'nominal', nominal: length(100), under: length(2), over: length(2) } as const;
    const stages = SPRAT.stages.map((stage) => {
      if (stage.kind === 'measure' && stage.id === 'line') return { ...stage, target };
      return stage.kind === 'stow' ? { ...stage, plan: { ...stage.plan, lineFrom: null } } : stage;
    });
    const driver = at('stage:line', { ...LOFT, procedures: [{ ...SPRAT, stages }] });
    expect(driver.view.legal.find(({ name }) => name === 'measured')).toMatchObject({
      phrase,
      main: true,
      input: { kind: 'quantity', unit },
    });
    hear(driver, 'measured 99');
    expect(readBack(driver)).toBe(`The line: 99 ${unit}. Is that right?`);
    hear(driver, 'affirm');
    expect(driver.facts.at(-1)?.body).toMatchObject({ value: length(99), expected: length(100), deviation: -1 });
  });
});

describe('a hand-over', () => {
  const standingBy = (place = 'stage:line'): PackDriver => hear(at(place), 'standBy');
  const badge = (driver: PackDriver, id: string): string | undefined => {
    driver.badge(`B-${id}`);
    return notice(driver);
  };

  it('is said when it is taken, and the journal says by whom', () => {
    const driver = standingBy();
    badge(driver, 'ben');
    hear(driver, 'finding 5');
    badge(driver, 'ada');
    expect(notice(hear(driver, 'affirm'))).toBe('Handed over to Ben.');
    const taken = driver.facts.find(({ body }) => body.kind === 'handedOver');
    expect(taken).toMatchObject({ by: 'ben', body: { from: 'ada', to: 'ben', reason: 'other', lookedBack: 'layout' } });
    expect(taken?.body).not.toHaveProperty('lead');
    expect(notice(hear(driver, 'resume'))).toBe('Resumed.');
  });

  it('is refused with the reason', () => {
    const driver = standingBy();
    expect(badge(driver, 'ada')).toBe('Ada packs already. Say resume packing to go on.');
    expect(badge(driver, 'nora')).toBe('Nora is not qualified for model Sprat. Another rigger must pack.');
    expect(driver.facts.at(-1)).toMatchObject({ by: 'nora', body: { kind: 'scanRefused', where: 'handover' } });
    badge(driver, 'nobody');
    expect(driver.facts.at(-1)).toMatchObject({ by: null, body: { kind: 'scanRefused', reason: 'unknown-badge' } });
    driver.component('P1-BAG');
    expect(notice(driver)).toBe('That is a component label. To take over, scan your badge.');
  });

  it('is refused to whoever has given a verdict', () => {
    const driver = at('hold:layout');
    driver.badge('B-ron');
    hear(driver, 'releaseHold', 'affirm', 'standBy');
    expect(badge(driver, 'ron')).toBe('Ron has inspected this pack and may not pack it. Call another rigger.');
  });

  it('before anything is agreed asks only whether the rigger may pack something', () => {
    const driver = standingBy('identifying');
    expect(badge(driver, 'ines')).toBe('Ines is not a rigger. A qualified rigger must pack.');
    badge(driver, 'nora');
    hear(driver, 'finding 5');
    expect(badge(driver, 'ada')).toContain('Handed over to Nora.');
  });

  it('before anything is agreed is refused to a rigger of no model', () => {
    const people = LOFT.people.map((one) => (one.id === 'ben' ? { ...one, models: [] } : one));
    const driver = hear(new PackDriver({ loft: { ...LOFT, people } }), 'standBy');
    expect(badge(driver, 'ben')).toBe('Ben is not qualified for any model. Another rigger must pack.');
  });
});
