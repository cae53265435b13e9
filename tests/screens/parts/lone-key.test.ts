/** A scanner's keys must never give a command, whatever it was set to send. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createLoneKeys, QUIET_MS, type KeyPress } from '../../../src/screens/parts/lone-key';

const f = (key: string): KeyPress => ({ key, shift: false });

describe('lone keys', () => {
  let given: string[] = [];
  let lone = createLoneKeys(() => undefined);

  beforeEach(() => {
    vi.useFakeTimers();
    given = [];
    lone = createLoneKeys((press) => given.push(press.key));
  });
  afterEach(() => vi.useRealTimers());

  it('takes a key with quiet before and after it', () => {
    expect(lone.press(f('F2'), 1000)).toBe(false);
    expect(given).toEqual([]);
    vi.advanceTimersByTime(QUIET_MS);
    expect(given).toEqual(['F2']);
  });

  it('takes two keys that a finger pressed one after the other', () => {
    lone.press(f('4'), 1000);
    vi.advanceTimersByTime(150);
    lone.press(f('2'), 1150);
    vi.advanceTimersByTime(150);
    expect(given).toEqual(['4', '2']);
  });

  it('ignores a burst from its first key to its last', () => {
    'QH-K-0093'.split('').forEach((key, index) => lone.press(f(key), 1000 + index * 12));
    expect(lone.press(f('Enter'), 1108)).toBe(true);
    vi.advanceTimersByTime(1000);
    expect(given).toEqual([]);
  });

  it('ignores a function key sent as prefix of a scan', () => {
    lone.press(f('F2'), 1000);
    lone.press(f('Q'), 1012);
    lone.press(f('H'), 1024);
    vi.advanceTimersByTime(1000);
    expect(given).toEqual([]);
  });

  it('ignores a function key sent after a scan', () => {
    lone.press(f('9'), 1000);
    lone.press(f('3'), 1012);
    expect(lone.press(f('F2'), 1024)).toBe(true);
    vi.advanceTimersByTime(1000);
    expect(given).toEqual([]);
  });

  it('ignores a prefix whose scan is seen only by its keys coming up', () => {
    lone.press(f('F2'), 1000);
    vi.advanceTimersByTime(14);
    lone.stir(1014);
    vi.advanceTimersByTime(1000);
    expect(given).toEqual([]);
  });

  it('ignores a suffix whose scan was seen only by its keys coming up', () => {
    lone.stir(1000);
    expect(lone.press(f('F2'), 1010)).toBe(true);
    vi.advanceTimersByTime(1000);
    expect(given).toEqual([]);
  });

  it('still takes a digit that was held back for a moment and then given back', () => {
    lone.stir(1000);
    expect(lone.press(f('4'), 1035)).toBe(false);
    vi.advanceTimersByTime(QUIET_MS);
    expect(given).toEqual(['4']);
  });

  it('forgets a waiting key when told to', () => {
    lone.press(f('F2'), 1000);
    lone.drop();
    vi.advanceTimersByTime(1000);
    expect(given).toEqual([]);
  });
});
