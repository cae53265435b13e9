/** A watched value: told after it has changed, and not for an equal one. */
import { expect, it } from 'vitest';
import { watchable } from '../../src/kiosk/watchable';

it('tells each change once it can be read, nothing of an equal value, and nobody who has left', () => {
  const level = watchable(0);
  const seen: number[] = [];
  const leave = level.subscribe(() => seen.push(level.get()));
  level.set(1);
  level.set(1);
  level.set(Number.NaN);
  level.set(Number.NaN);
  leave();
  level.set(2);
  expect(seen).toEqual([1, Number.NaN]);
  expect(level.get()).toBe(2);
});
