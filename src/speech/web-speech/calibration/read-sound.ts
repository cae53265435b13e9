/** Recorded sounds from disk, at the recogniser's own rate. */
import { readFileSync } from 'node:fs';
import { SAMPLE_RATE } from '../engine/engine';
import { parseWav } from '../synthesis/flite-wav';

/** Samples of a 16-bit WAVE file of 16 kHz. Throws for any other. */
export function readSound(file: string): Float32Array {
  const sound = parseWav(readFileSync(file));
  if (!sound.ok) throw new Error(`${file}: ${sound.detail}`);
  if (sound.value.sampleRate !== SAMPLE_RATE) {
    throw new Error(`${file}: made at ${sound.value.sampleRate} Hz; the recogniser takes ${SAMPLE_RATE}. Convert it.`);
  }
  return sound.value.samples;
}
