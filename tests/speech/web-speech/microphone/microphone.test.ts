/** What the browser's refusals mean, and how loud the room is shown to be. */
import { describe, expect, it } from 'vitest';
import { levelOf } from '../../../../src/speech/web-speech/microphone/level';
import { microphoneRefusal } from '../../../../src/speech/web-speech/microphone/microphone';

describe('refusals', () => {
  // Names of the Media Capture and Streams specification, 10.2.
  it.each([
    ['NotAllowedError', 'denied'],
    ['SecurityError', 'denied'],
    ['NotFoundError', 'absent'],
    ['OverconstrainedError', 'absent'],
    ['NotReadableError', 'absent'],
    ['AbortError', 'absent'],
    ['SomethingNew', 'absent'],
  ])('%s is told as %s, with what still works', (name, reason) => {
    const result = microphoneRefusal(name);
    expect(result).toMatchObject({ ok: false, reason });
    expect(result.ok ? '' : result.detail).toMatch(/\. .*Touch, keys and the command card still work\.$/);
  });
});

describe('level', () => {
  it.each([
    [1, 1],
    [4, 1],
    [1e-3, 0.5],
    [1e-6, 0],
    [1e-9, 0],
    [0, 0],
    [Number.NaN, 0],
  ])('power %d is shown as %d', (power, level) => {
    expect(levelOf(power)).toBeCloseTo(level, 9);
  });
});
