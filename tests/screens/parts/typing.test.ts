/** What a pad makes of the keys: never a command that was not typed, never a value that was not meant. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LegalCommand } from '../../../src/packing/machine/view';
import {
  chooseSixteenths,
  chooseUnit,
  chosen,
  NOTHING_TYPED,
  pressed,
  rubOut,
  typeDigit,
  typedCommand,
  typedValue,
  typePoint,
  unitsBeside,
  type Typed,
} from '../../../src/screens/parts/typing';

const base = { label: '', phrase: '', main: true } as const;
const COUNT: LegalCommand = { ...base, name: 'count', input: { kind: 'count', noun: 'stows', max: 12 } };
const INCHES: LegalCommand = { ...base, name: 'measured', input: { kind: 'quantity', unit: 'in' } };
const CENTIMETRES: LegalCommand = { ...base, name: 'measured', input: { kind: 'quantity', unit: 'cm' } };
const FINDING: LegalCommand = {
  ...base,
  name: 'finding',
  input: {
    kind: 'choice',
    options: [1, 2, 3].map((number) => ({ number, label: `finding ${String(number)}` })),
    note: null,
  },
};
const STAGE: LegalCommand = { ...FINDING, name: 'goToStage' };

const digits = (text: string): Typed => text.split('').reduce(typeDigit, NOTHING_TYPED);

describe('typed values', () => {
  it('makes nothing of nothing', () => {
    expect(typedCommand(COUNT, NOTHING_TYPED)).toBeNull();
    expect(typedCommand(INCHES, NOTHING_TYPED)).toBeNull();
  });

  it('counts up to what is left, and not beyond', () => {
    expect(typedCommand(COUNT, digits('12'))).toEqual({ name: 'count', count: 12, noun: 'stows' });
    expect(typedCommand(COUNT, digits('13'))).toBeNull();
  });

  it('counts no half stows', () => {
    expect(typedCommand(COUNT, { ...digits('1'), sixteenths: 8 })).toBeNull();
    expect(typedCommand(COUNT, { ...NOTHING_TYPED, digits: '1.5' })).toBeNull();
  });

  it('joins whole inches and a fraction', () => {
    const typed = chooseSixteenths(digits('41'), 4);
    expect(typedCommand(INCHES, typed)).toEqual({ name: 'measured', value: 41.25, unit: 'in' });
  });

  it('takes a fraction alone', () => {
    expect(typedCommand(INCHES, chooseSixteenths(NOTHING_TYPED, 1))).toEqual({
      name: 'measured',
      value: 0.0625,
      unit: 'in',
    });
  });

  it('never adds a fraction to decimals: the later of the two stands', () => {
    const decimals = typePoint(chooseSixteenths(digits('3'), 8));
    expect(typedValue(typeDigit(decimals, '2'))).toBe(3.2);
    expect(typedValue(chooseSixteenths(typeDigit(typePoint(digits('3')), '2'), 8))).toBe(3.5);
  });

  it('drops the fraction with the inches it belonged to', () => {
    const feet = chooseUnit(chooseSixteenths(digits('3'), 8), 'ft');
    expect(typedCommand(INCHES, feet)).toEqual({ name: 'measured', value: 3, unit: 'ft' });
  });

  it('drops the decimals when the unit becomes inches', () => {
    const inches = chooseUnit(typeDigit(typePoint(chooseUnit(digits('3'), 'ft')), '5'), 'in');
    expect(typedCommand(INCHES, inches)).toEqual({ name: 'measured', value: 3, unit: 'in' });
  });

  it('names the unit that was asked for where none was chosen', () => {
    expect(typedCommand(CENTIMETRES, digits('30'))).toEqual({ name: 'measured', value: 30, unit: 'cm' });
  });

  it('offers only units of the same tape', () => {
    expect(unitsBeside('in')).toEqual(['in', 'ft']);
    expect(unitsBeside('mm')).toEqual(['mm', 'cm']);
  });

  it('takes a number of the list and no other', () => {
    expect(typedCommand(FINDING, digits('2'))).toEqual({ name: 'finding', number: 2 });
    expect(typedCommand(STAGE, digits('3'))).toEqual({ name: 'goToStage', stage: 3 });
    expect(typedCommand(FINDING, digits('4'))).toBeNull();
    expect(typedCommand(FINDING, digits('0'))).toBeNull();
    expect(chosen(FINDING, 4)).toBeNull();
    expect(chosen(COUNT, 1)).toBeNull();
  });

  it('has one point, and writes the nought before it', () => {
    expect(typePoint(NOTHING_TYPED).digits).toBe('0.');
    expect(typePoint(typePoint(digits('3'))).digits).toBe('3.');
  });

  it('gives no command for a control that needs a value first', () => {
    expect([COUNT, INCHES, FINDING, STAGE].map(pressed)).toEqual([null, null, null, null]);
    expect(pressed({ ...base, name: 'affirm', input: { kind: 'press' } })).toEqual({ name: 'affirm' });
  });

  it('shows exactly the number that was typed, for every number that fits', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999 }), (number) => {
        expect(typedValue(digits(String(number)))).toBe(number);
      }),
    );
  });

  it('undoes a digit', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99_999 }), fc.integer({ min: 0, max: 9 }), (number, digit) => {
        const before = digits(String(number));
        expect(rubOut(typeDigit(before, String(digit)))).toEqual(before);
      }),
    );
  });

  it('takes no more digits than it can show', () => {
    expect(digits('1234567').digits).toBe('123456');
  });
});
