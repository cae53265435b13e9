/** Symbol values and the check value of Code 128: modulo 103 (ISO/IEC 15417). */
import { assert } from '../../../src/domain/assert';

export const CODE_SETS = ['A', 'B', 'C'] as const;
export type CodeSet = (typeof CODE_SETS)[number];

/** Values of the start characters. */
const CODE128_START: Readonly<Record<CodeSet, number>> = { A: 103, B: 104, C: 105 };
/** Values of the characters that change the code set. */
export const CODE128_SWITCH: Readonly<Record<CodeSet, number>> = { A: 101, B: 100, C: 99 };
/** Function character 1: in first place it says "GS1 data", later it separates elements. */
export const CODE128_FNC1 = 102;

/** Symbol values of `text` written wholly in one code set; null where the set lacks a character. */
export function code128Values(set: CodeSet, text: string): readonly number[] | null {
  if (set === 'C') {
    if (!/^(\d\d)+$/.test(text)) return null;
    return (text.match(/\d\d/g) ?? []).map(Number);
  }
  const values: number[] = [];
  for (const character of text) {
    const code = character.charCodeAt(0);
    if (code >= 32 && code <= (set === 'A' ? 95 : 127)) values.push(code - 32);
    else if (set === 'A' && code < 32) values.push(code + 64);
    else return null;
  }
  return values;
}

/** The check value (0 to 102) for a start character and the values that follow it, the first weighted 1. */
export function code128CheckValue(start: CodeSet, values: readonly number[]): number {
  let sum = CODE128_START[start];
  values.forEach((value, index) => {
    assert(value >= 0 && value <= CODE128_FNC1, 'a Code 128 data value lies between 0 and 102');
    sum += value * (index + 1);
  });
  return sum % 103;
}
