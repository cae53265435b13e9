/** Of every prompt that a test comes by: its parts are all of it. */
import { expect } from 'vitest';
import type { StepPrompt } from '../../../src/packing/machine/view';

const joined = (texts: readonly string[]): string => texts.filter((text) => text !== '').join(' ');

/** The parts joined are exactly what is said and what is shown, and none of them is empty. */
export function expectJoined({ parts, say, show }: StepPrompt): void {
  expect(joined(parts.map((one) => one.say))).toBe(say);
  expect(joined(parts.map((one) => one.show))).toBe(show);
  expect(parts.every((one) => one.say !== '' || one.show !== '')).toBe(true);
  expect(parts.length).toBeGreaterThan(0);
}
