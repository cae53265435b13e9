/** Who speaks while the ear opens was not heard whole; what was there before must be noticed however it sounds. */
import { describe, expect, it } from 'vitest';
import { Bands } from '../../../../src/speech/web-speech/acoustics/bands';
import { STEP, Steps } from '../../../../src/speech/web-speech/acoustics/frames';
import { Opening } from '../../../../src/speech/web-speech/acoustics/opening';
import { NoiseFloor } from '../../../../src/speech/web-speech/acoustics/noise-floor';
import { hiss } from '../../../audio/hiss';

const AT = 32_000;
const tone = (turn: number, level: number): Float32Array =>
  Float32Array.from({ length: 20 * STEP }, (_, at) => level * Math.sin(at * turn));

/** High tones alone: what two samples of a hiss differ by. */
function hissing(level: number): Float32Array {
  const noise = hiss(level, 20 * STEP + 1, 9);
  return noise.slice(1).map((sample, at) => sample - (noise[at] ?? 0));
}

function roomOf(noise: Float32Array): NoiseFloor {
  const [room, bands] = [new NoiseFloor(), new Bands()];
  for (const step of new Steps().push(noise)) room.learn(bands.step(step));
  return room;
}

describe('the opening of the ear', () => {
  const quiet = hiss(0.0002, 16_000, 3);
  const room = roomOf(quiet);
  const opened = (...before: Float32Array[]): Opening => {
    const opening = new Opening(AT);
    for (const sound of before) opening.push(sound, room);
    return opening;
  };

  it('cuts what begins in it or just after speech, and nothing that begins later or after quiet', () => {
    const spoken = opened(tone(0.4, 0.1));
    expect([AT, AT + 5 * STEP, AT + 20 * STEP].map((at) => spoken.cuts(at))).toEqual([true, true, false]);
    expect(opened(quiet).cuts(AT + STEP)).toBe(false);
    expect(opened(tone(0.4, 0.1), quiet).cuts(AT + STEP)).toBe(false);
  });

  // Plain loudness of both is near -60 dB and -50 dB; with high tones raised -55 dB and -62 dB.
  it.each([
    ['a soft hissing sound', hissing(0.0008)],
    ['a soft low sound', tone(0.25, 0.0045)],
  ])('hears %s before it, as soft as the end-pointer would hear it or softer', (_, sound) => {
    expect(opened(sound).cuts(AT + STEP)).toBe(true);
  });

  it('hears nothing in what is softer than any speech', () => {
    expect(opened(tone(0.4, 0.0005)).cuts(AT + STEP)).toBe(false);
  });

  it('the begin of a stream is no opening', () => {
    expect(new Opening(0).cuts(0)).toBe(false);
  });
});
