/** The kiosk's voice: speaks through the Web Speech interface over the embedded engine. */
import { ok, refused } from '../domain/result';
import type { SpeakingPort } from './speaking';
import type { SoundOutput, SynthesisEngine } from '@stowcall/web-speech';
import {
  cacheSentences,
  createFliteEngine,
  createSoundOutput,
  ENGINE_VOICES,
  SpeechSynthesis,
  SpeechSynthesisUtterance,
} from '@stowcall/web-speech';
import type { FliteVoice } from '@stowcall/web-speech/flite';

export type SpeechEnd = 'done' | 'stopped' | 'failed';

export interface MouthParts {
  readonly engine: SynthesisEngine;
  readonly output: SoundOutput;
}

/** The easiest of the engine's voices to understand, as far as a recogniser can tell. */
const VOICE: FliteVoice = 'rms';

/** The mouth of the page: engine from `wasmUrl` (this page's own origin), sound through Web Audio. */
export function createMouth(wasmUrl = '/engine/flite.wasm'): SpeakingPort {
  return createMouthOver({
    engine: createFliteEngine(wasmUrl),
    output: createSoundOutput(() => new AudioContext()),
  });
}

/** A mouth over any engine and output. Nothing here throws: whatever goes wrong ends as `failed`. */
export function createMouthOver(parts: MouthParts): SpeakingPort {
  const { output } = parts;
  const engine = cacheSentences(parts.engine);
  const synthesis = new SpeechSynthesis({ engine, output, voices: ENGINE_VOICES });
  const voice = synthesis.getVoices().find(({ name }) => name === VOICE) ?? null;
  const stop = (): void => synthesis.cancel();
  return {
    prepare: async () => {
      const [loaded, opened] = await Promise.all([engine.prepare(), output.prepare()]);
      if (!loaded.ok) return refused('engine', loaded.detail);
      return opened.ok ? ok(undefined) : refused('noAudio', opened.detail);
    },
    say: (text, rate) => {
      stop();
      return new Promise<SpeechEnd>((resolve) => {
        const utterance = new SpeechSynthesisUtterance(text);
        utterance.voice = voice;
        utterance.rate = rate;
        utterance.onend = () => resolve('done');
        utterance.onerror = ({ error }) =>
          resolve(error === 'canceled' || error === 'interrupted' ? 'stopped' : 'failed');
        synthesis.speak(utterance);
      });
    },
    stop,
  };
}
