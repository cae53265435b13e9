/** Counting and measuring are blind: whoever knows what is expected reads it off the table instead of counting. */
import { describe, expect, it } from 'vitest';
import type { Loft } from '../../../src/domain/loft';
import type { Command } from '../../../src/domain/command';
import { sayNumber } from '../../../src/domain/spoken';
import { reach } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';

function at(place: string, loft: Loft = LOFT): PackDriver {
  const driver = new PackDriver({ loft });
  reach(driver, place);
  return driver;
}

/** Everything that can be seen, heard or pressed now, but what stands in the procedure's own words. */
function told({ view }: PackDriver): string {
  const { detail, prompt, notice, legal } = view;
  return JSON.stringify([detail, prompt.say, prompt.show, notice, legal]);
}

/** Whether the number stands there in figures or in words. */
function tells(text: string, expected: number): boolean {
  return new RegExp(`\\b(${String(expected)}|${sayNumber(expected)})\\b`).test(text);
}

const TRAINEES: Loft = {
  ...LOFT,
  settings: { ...LOFT.settings, expectedShown: 'alsoBeforeForTrainees' },
};
const ADA_LEARNS: Loft = {
  ...TRAINEES,
  people: LOFT.people.map((one) => (one.id === 'ada' ? { ...one, roles: ['rigger', 'trainee'] } : one)),
};

const wrong: readonly (readonly [string, string, number, Command])[] = [
  ['a count', 'stage:cells', 7, { name: 'count', count: 6, noun: 'cells' }],
  ['tools out', 'toolOut:paddle', 2, { name: 'count', count: 9, noun: 'tools' }],
  ['tools back', 'toolBack:paddle', 2, { name: 'count', count: 9, noun: 'tools' }],
  ['a length', 'stage:line', 100, { name: 'measured', value: 50, unit: 'in' }],
  ['a remainder', 'stage:rest', 19, { name: 'measured', value: 50, unit: 'in' }],
];

/** The number of the stage itself would be taken for it. */
const withoutPlace = (text: string): string =>
  text.replace(/"number":\d+|"of":\d+|"current":\d+|[Ss]tage [\w-]+ of [\w-]+/g, '').replace(/\[2,2\]/g, '');

describe.each(wrong)('%s', (...[, place, expected, reading]) => {
  it('is not told before a reading was given, nor while it is read back', () => {
    const driver = at(place);
    for (const ask of ['sayAgain', 'whatRemains'] as const) {
      expect(tells(withoutPlace(told(driver)), expected), told(driver)).toBe(false);
      driver.command({ name: ask });
    }
    driver.command(reading);
    expect(tells(withoutPlace(told(driver)), expected), told(driver)).toBe(false);
    driver.command({ name: 'negative' });
    expect(tells(withoutPlace(told(driver)), expected), told(driver)).toBe(false);
  });

  it('is told beside what was given once that was affirmed and refused', () => {
    const driver = at(place);
    driver.command(reading);
    driver.command({ name: 'affirm' });
    expect(driver.view.notice?.text).toContain(String(expected));
    expect(tells(JSON.stringify(driver.view.detail), expected)).toBe(true);
  });

  it('is told before to a packer who is a trainee, where the loft wants that, and to nobody else', () => {
    expect(tells(withoutPlace(told(at(place, ADA_LEARNS))), expected)).toBe(true);
    expect(tells(withoutPlace(told(at(place, TRAINEES))), expected)).toBe(false);
  });

  it('is hidden again when the pack comes back to the step another time', () => {
    if (place === 'toolBack:paddle') return;
    const driver = at(place);
    driver.command(reading);
    driver.command({ name: 'affirm' });
    if (reading.name === 'count') {
      driver.restart();
      expect(tells(withoutPlace(told(driver)), expected)).toBe(false);
    }
  });
});

describe('an accepted reading', () => {
  it.each([
    ['stage:cells', { name: 'count', count: 7, noun: 'cells' } as const, '7 cells, 7 expected.'],
    ['stage:line', { name: 'measured', value: 101, unit: 'in' } as const, '101 in, 100 in expected.'],
  ])('at %s stands beside what was expected', (place, reading, text) => {
    const driver = at(place);
    driver.command(reading);
    driver.command({ name: 'affirm' });
    expect(driver.view.notice).toEqual({ tone: 'answer', text });
  });
});

describe('the line that should remain', () => {
  it('is no part of a stowing stage, and the number of stows is', () => {
    const driver = at('stage:stows');
    expect(tells(withoutPlace(told(driver)), 19), told(driver)).toBe(false);
    expect(driver.view.prompt.say).toContain('six stows of four inches, double wrap.');
    expect(at('stage:stows', ADA_LEARNS).view.prompt.say).toContain('nineteen inches should remain.');
  });
});
