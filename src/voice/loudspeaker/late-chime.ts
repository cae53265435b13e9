/** How late a loudspeaker is: a chime with a shape of its own, and where it lies in what the microphone took in. */
import type { Sound } from '@stowcall/web-speech/flite';

const RATE = 16_000;
const SECONDS = 0.3;
const FROM_HZ = 500;
const TO_HZ = 2_500;
const LOUDNESS = 0.25;
const FADE_SECONDS = 0.02;
/** Both are compared at a quarter of the work: nothing of the chime lies above 4 kHz. */
const STEP = 2;
/**
 * Likeness, 0 to 1, from which it is the chime. Noise of the chime's own band reaches 0.17 over three seconds, a chime
 * that is no louder than such noise 0.6.
 */
const LIKE = 0.3;
/** The latest of the places that are nearly as like it counts: the ear must stay shut for the last of them. */
const NEARLY = 0.8;

/** A tone that rises evenly from 500 to 2,500 Hz in 0.3 s, faded at both ends; 16 kHz. */
export function makeSweep(): Sound {
  const length = Math.round(SECONDS * RATE);
  const samples = Float32Array.from({ length }, (_, index) => {
    const t = index / RATE;
    const edge = Math.min(1, t / FADE_SECONDS, (length - 1 - index) / RATE / FADE_SECONDS);
    return LOUDNESS * edge * Math.sin(2 * Math.PI * (FROM_HZ * t + ((TO_HZ - FROM_HZ) * t * t) / (2 * SECONDS)));
  });
  return { samples, sampleRate: RATE };
}

/** Every second sample, each the mean of two. */
function halved(samples: Float32Array): Float32Array {
  return Float32Array.from(
    { length: Math.floor(samples.length / STEP) },
    (_, index) => ((samples[index * STEP] ?? 0) + (samples[index * STEP + 1] ?? 0)) / 2,
  );
}

/** Likeness of the chime to what begins at each place; the same for any loudness and either polarity. */
function likenesses(heard: Float32Array, chime: Float32Array): Float32Array {
  const energyOf = (sum: number, sample: number): number => sum + sample * sample;
  const norm = Math.sqrt(chime.reduce(energyOf, 0));
  let energy = heard.subarray(0, chime.length).reduce(energyOf, 0);
  return Float32Array.from({ length: Math.max(0, heard.length - chime.length + 1) }, (_, at) => {
    let product = 0;
    for (let index = 0; index < chime.length; index += 1) product += (heard[at + index] ?? 0) * (chime[index] ?? 0);
    const like = energy > 1e-9 ? Math.abs(product) / (norm * Math.sqrt(energy)) : 0;
    energy += (heard[at + chime.length] ?? 0) ** 2 - (heard[at] ?? 0) ** 2;
    return like;
  });
}

/**
 * Milliseconds from the first sample of `heard` (16 kHz) to the beginning of the chime in it; null where it is not in
 * it, or not surely.
 */
export function chimeDelay(heard: Float32Array): number | null {
  const likes = likenesses(halved(heard), halved(makeSweep().samples));
  const most = likes.reduce((one, other) => Math.max(one, other), 0);
  if (most < LIKE) return null;
  const last = likes.findLastIndex((like) => like >= most * NEARLY);
  return (last * STEP * 1_000) / RATE;
}
