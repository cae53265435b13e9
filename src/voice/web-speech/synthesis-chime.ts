/** Short signals made of plain tones: heads up before a hold, and a refusal that cannot be taken for assent. */
import type { Sound } from './flite-wav';

export const CHIMES = ['hold', 'refusal'] as const;
export type Chime = (typeof CHIMES)[number];

const RATE = 16_000;
/** Hertz and seconds, one after another: rising for a hold, low and repeated for a refusal. */
const TONES: Readonly<Record<Chime, readonly { readonly hz: number; readonly seconds: number }[]>> = {
  hold: [
    { hz: 660, seconds: 0.14 },
    { hz: 880, seconds: 0.2 },
  ],
  refusal: [
    { hz: 220, seconds: 0.16 },
    { hz: 0, seconds: 0.06 },
    { hz: 220, seconds: 0.16 },
  ],
};
const LOUDNESS = 0.25;
const FADE_SECONDS = 0.01;

/** The samples of a chime, faded at both ends of each tone so that it does not click. */
export function makeChime(chime: Chime): Sound {
  const tones = TONES[chime].map(({ hz, seconds }) => {
    const length = Math.round(seconds * RATE);
    const fade = FADE_SECONDS * RATE;
    return Float32Array.from({ length }, (_, index) => {
      const edge = Math.min(1, index / fade, (length - 1 - index) / fade);
      return LOUDNESS * edge * Math.sin((2 * Math.PI * hz * index) / RATE);
    });
  });
  const samples = new Float32Array(tones.reduce((sum, tone) => sum + tone.length, 0));
  let at = 0;
  for (const tone of tones) {
    samples.set(tone, at);
    at += tone.length;
  }
  return { samples, sampleRate: RATE };
}
