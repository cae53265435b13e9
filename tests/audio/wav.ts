/** Sound files of the tests: written here, read by the same code that reads the engine's own. */
import type { Sound } from '@stowcall/web-speech/flite';
import { parseWav as readWav } from '@stowcall/web-speech/flite';

/** Single-channel 16-bit PCM WAVE bytes of `samples` (-1 to 1; beyond that they are clipped). */
export function makeWav(samples: Float32Array, sampleRate: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(44 + samples.length * 2);
  const view = new DataView(bytes.buffer);
  const text = (at: number, value: string) => bytes.set(new TextEncoder().encode(value), at);
  text(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * 2, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  text(36, 'data');
  view.setUint32(40, samples.length * 2, true);
  samples.forEach((sample, index) => {
    view.setInt16(44 + index * 2, Math.max(-32768, Math.min(32767, Math.round(sample * 32768))), true);
  });
  return bytes;
}

/** Single-channel samples of 16-bit PCM WAVE bytes; throws where they are none. */
export function parseWav(bytes: Uint8Array): Sound {
  const sound = readWav(bytes);
  if (!sound.ok) throw new Error(sound.detail);
  return sound.value;
}
