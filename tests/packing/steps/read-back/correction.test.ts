/** Correction: what it takes back is named before and after, and what stands for good is not offered. */
import { describe, expect, it } from 'vitest';
import { reach } from '../../autopilot';
import { LOFT } from '../../fixture';
import { PackDriver } from '../../pack-driver';

const at = (place: string): PackDriver => {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place);
  return driver;
};
const canCorrect = ({ view }: PackDriver): boolean => view.legal.some(({ name }) => name === 'correction');

describe('a correction names what it takes back', () => {
  it.each<[string, (driver: PackDriver) => void, string]>([
    ['toolOut:cord', () => undefined, 'the count out of Packing paddle'],
    ['stage:cells', () => undefined, 'the end of stage 1, Lay out'],
    ['stage:tie', () => undefined, 'the count of 7 cells'],
    ['hold:layout', () => undefined, 'that nose tie went in'],
    ['stage:stows', () => undefined, 'the measured 100 in'],
    ['stage:stows', (driver) => driver.command({ name: 'stow' }), 'the last 1 stow'],
    [
      'stage:stows',
      (driver) => {
        driver.command({ name: 'count', count: 5, noun: 'stows' });
        driver.command({ name: 'affirm' });
      },
      'the last 5 stows',
    ],
    ['toolCheck:paddle', () => undefined, 'that nose tie came out'],
    ['items:closing', () => undefined, 'the count before closing of Pull-up cord'],
    ['stage:close', () => undefined, 'that the temporary items were seen'],
    ['hold:last', () => undefined, 'that the data card is in its pocket'],
    ['toolBack:cord', () => undefined, 'the count back of Packing paddle'],
  ])('at %s', (place, act, what) => {
    const driver = at(place);
    act(driver);
    const { length } = driver.facts;
    driver.command({ name: 'correction' });
    expect(driver.view.readBack?.show).toBe(`Correction: take back ${what}. Is that right?`);
    driver.command({ name: 'affirm' });
    expect(driver.view.notice).toEqual({ tone: 'answer', text: `Taken back: ${what}.` });
    expect(driver.facts.slice(length).map(({ by, body }) => [by, body])).toEqual([
      ['ada', { kind: 'corrected', fact: length - 1 }],
    ]);
  });

  it('a component by its serial, spelled', () => {
    const driver = new PackDriver({ loft: LOFT });
    driver.component('P1-BAG');
    driver.command({ name: 'affirm' });
    driver.command({ name: 'correction' });
    expect(driver.view.readBack?.show).toBe('Correction: take back bag, serial P1-BAG. Is that right?');
    expect(driver.view.prompt.say).toBe(
      'Correction: take back bag, serial Papa, one, dash, Bravo, Alfa, Golf. Is that right?',
    );
  });
});

describe('a correction is not offered', () => {
  it.each(['identifying', 'toolOut:paddle', 'stage:line', 'stage:untie', 'toolBack:paddle', 'card'])(
    'at %s, where a check or a verdict was the last thing',
    (place) => {
      expect(canCorrect(at(place))).toBe(false);
    },
  );

  it('of a value outside its band, which stands, but of what was done before it', () => {
    const driver = at('stage:rest');
    driver.command({ name: 'measured', value: 15, unit: 'in' });
    driver.command({ name: 'affirm' });
    driver.command({ name: 'correction' });
    expect(driver.view.readBack?.show).toBe('Correction: take back the end of stage 5, Stow the line. Is that right?');
  });

  it('of work before a return', () => {
    const driver = at('hold:layout');
    driver.badge('B-ines');
    driver.command({ name: 'returnHold' });
    driver.command({ name: 'finding', number: 2 });
    driver.command({ name: 'affirm' });
    driver.command({ name: 'affirm' });
    expect(canCorrect(driver)).toBe(false);
  });
});
