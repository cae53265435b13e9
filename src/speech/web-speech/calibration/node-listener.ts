/** The recogniser without a page, in Node: the same engine, endpointing and verdicts, fed with samples. */
import createModule from 'soundswallower';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { VoiceSample } from '../rescoring/voice-sample';
import { ENDPOINTER } from '../acoustics/endpointer';
import type { RecognitionEngine } from '../engine/engine';
import { createEngine, SAMPLE_RATE } from '../engine/engine';
import type { ListenFor } from '../decision/listen-for';
import { RecognitionListener } from '../decision/listener';
import { parsePronunciations } from '@stowcall/grammar';
import type { Verdict } from '../decision/verdict';

/** A browser's worker gets blocks of this many samples. */
const BLOCK = 320;
/** Room before and after a sound, so that its end is found: more than the pause that ends an utterance. */
const ROOM_SECONDS = 0.6;
/** A microphone has been open for longer than this when somebody speaks, so that the room's noise is known. */
export const OPEN_SECONDS = 2;

export interface Decided {
  /** One for each utterance that was found in the sound. */
  readonly verdicts: readonly Verdict[];
  /** How each phrase was said, where the grammars ask for it. */
  readonly features: readonly Float32Array[];
  readonly searchMs: number;
  readonly msToDecision: number;
}

/** The engine, the endpointer and the verdicts, for any grammar. */
export interface NodeListener {
  readonly modelKind: '16k' | '8k';
  /** What is decided on this sound (16 kHz, -1 to 1). Throws a sentence where a word of it cannot be pronounced. */
  decide(listened: ListenFor, samples: Float32Array): Decided;
  /** Whose voice is heard from now on. */
  know(samples: readonly VoiceSample[]): void;
  dispose(): void;
}

export interface NodeEngine {
  readonly engine: RecognitionEngine;
  readonly modelKind: '16k' | '8k';
}

/** Opens the engine with the fetched model, or else with its own 8 kHz one; on wish with that one anyway. */
export async function openNodeEngine(root: string, wish: 'fetched' | '8k' = 'fetched'): Promise<NodeEngine> {
  const fetched = join(root, '.stowcall/model/en-us-16k');
  const isFetched = wish === 'fetched' && existsSync(join(fetched, 'mdef'));
  const pronunciations = parsePronunciations(readFileSync(join(root, 'grammars/pronunciations.txt'), 'utf8'));
  if (!pronunciations.ok) throw new Error(pronunciations.detail);
  const engine = await createEngine({
    createModule: (settings) => createModule(settings),
    wasm: null,
    model: isFetched ? fetched : join(root, 'node_modules/soundswallower/model/en-us'),
    pronunciations: pronunciations.value,
  });
  if (!engine.ok) throw new Error(engine.detail);
  return { engine: engine.value, modelKind: isFetched ? '16k' : '8k' };
}

/** The engine with the listener over it. */
export async function openNodeListener(root: string, wish: 'fetched' | '8k' = 'fetched'): Promise<NodeListener> {
  const { engine, modelKind } = await openNodeEngine(root, wish);
  let verdicts: Verdict[] = [];
  let features: Float32Array[] = [];
  const listener = new RecognitionListener(engine, (event) => {
    if (event.kind !== 'final') return;
    verdicts.push(event.verdict);
    if (event.features !== undefined) features.push(event.features);
  });
  return {
    modelKind,
    know: (samples) => listener.know(samples),
    decide: (listened, samples) => {
      verdicts = [];
      features = [];
      const opened = listener.open(listened, 0);
      if (!opened.ok) throw new Error(opened.detail);
      const searchMs = feed(listener, samples);
      listener.close();
      const earlyMs = (ENDPOINTER.pause - ENDPOINTER.likelyPause) * 10;
      return { verdicts, features, searchMs, msToDecision: Math.max(0, searchMs - earlyMs) };
    },
    dispose: () => engine.dispose(),
  };
}

/** The wordings that a verdict leaves open, the best first; none where nothing was recognised. */
export function readingsOf(verdict: Verdict): readonly string[] {
  if (verdict.kind === 'notHeard') return [];
  return verdict.kind === 'heard' ? [verdict.words] : verdict.candidates;
}

/** The sound with silence before and after it, so that its end is found. */
export function withRoom(samples: Float32Array, beforeSeconds = ROOM_SECONDS): Float32Array {
  const before = Math.round(beforeSeconds * SAMPLE_RATE);
  const sound = new Float32Array(before + samples.length + Math.round(ROOM_SECONDS * SAMPLE_RATE));
  sound.set(samples, before);
  return sound;
}

/** Feeds the sound in blocks; answers the time of the slowest block, which is the one that was searched. */
function feed(listener: RecognitionListener, sound: Float32Array): number {
  let slowest = 0;
  for (let at = 0; at < sound.length; at += BLOCK) {
    const before = performance.now();
    listener.push({ at, samples: sound.slice(at, at + BLOCK) });
    slowest = Math.max(slowest, performance.now() - before);
  }
  return slowest;
}
