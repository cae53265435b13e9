/** Words cut out of recorded sentences: what people said twice, to learn a voice from the one and test it with the other. */
import type { RecognitionEngine } from '../engine/engine';
import { automatonOf } from '../engine/automaton';
import { parseJsgf } from '@stowcall/grammar';
import { networkOf } from '../engine/network';

export interface Recording {
  readonly wav: string;
  readonly speaker: string;
  readonly text: string;
}

/** A word of a recording: its place among the words, and its first and last frame of 10 ms. */
export interface CutWord extends Pick<Recording, 'wav' | 'speaker'> {
  /** Of the recording, in the order of the list. */
  readonly index: number;
  readonly place: number;
  readonly word: string;
  readonly first: number;
  readonly last: number;
}

/** A recording at its place in the list, with its sound. */
export interface Recorded {
  readonly recording: Recording;
  readonly index: number;
  readonly sound: Float32Array;
}

/** Where each word of a recording lies, by the engine that is told what was said. */
export function wordsOf(engine: RecognitionEngine, { recording, index, sound }: Recorded): readonly CutWord[] {
  const grammar = parseJsgf(`#JSGF V1.0; grammar text; public <text> = ${recording.text};`);
  if (!grammar.ok) throw new Error(grammar.detail);
  const automaton = automatonOf([grammar.value]);
  if (!automaton.ok) throw new Error(automaton.detail);
  const used = engine.use(networkOf(automaton.value, null));
  if (!used.ok) throw new Error(used.detail);
  const found = engine.decode(sound);
  if (found === null || found.words.join(' ') !== recording.text) return [];
  const { wav, speaker } = recording;
  const spoken = found.segments.filter(({ phones }) => phones > 0);
  return spoken.map(({ word, first, last }, place): CutWord => {
    return { wav, speaker, index, place, word: word.replace(/\(\d+\)$/, ''), first, last };
  });
}

const STEP = 160;
/** Frames before and after a word that are cut out with it. */
const BEFORE = 2;
const AFTER = 4;

/** The sound of the word, its ends made soft so that they do not click. */
export function soundOf({ first, last }: CutWord, whole: Float32Array): Float32Array {
  const sound = whole.slice(Math.max(0, (first - BEFORE) * STEP), Math.min(whole.length, (last + AFTER + 1) * STEP));
  for (let at = 0; at < STEP; at += 1) {
    const share = at / STEP;
    const mirror = sound.length - 1 - at;
    sound[at] = (sound[at] ?? 0) * share;
    sound[mirror] = (sound[mirror] ?? 0) * share;
  }
  return sound;
}

/** What one speaker is learnt from, and what is then said to the ear. */
export interface SpeakerSet {
  readonly speaker: string;
  /** The first time that each word of the vocabulary was said. */
  readonly templates: readonly CutWord[];
  /** Later times, from other recordings. */
  readonly tests: readonly CutWord[];
  /** Words that are none of the vocabulary. */
  readonly others: readonly CutWord[];
}

const FRAMES_MIN = 12;
const TEMPLATES_MIN = 4;
const TESTS_MAX = 5;
const TESTS_OF_A_WORD_MAX = 2;
const OTHERS_MAX = 2;
/** Others are taken here and there, and not from the first recording alone. */
const OTHERS_EVERY = 3;

/** The speakers who said enough words of the vocabulary. */
export function speakerSets(words: readonly CutWord[], vocabulary: readonly string[]): readonly SpeakerSet[] {
  const bySpeaker = new Map<string, CutWord[]>();
  for (const word of words) {
    if (word.last - word.first < FRAMES_MIN) continue;
    const known = bySpeaker.get(word.speaker);
    if (known === undefined) bySpeaker.set(word.speaker, [word]);
    else known.push(word);
  }
  return [...bySpeaker]
    .map(([speaker, all]) => setOf(speaker, all, vocabulary))
    .filter(({ templates }) => templates.length >= TEMPLATES_MIN);
}

function setOf(speaker: string, all: readonly CutWord[], vocabulary: readonly string[]): SpeakerSet {
  const templates = new Map<string, CutWord>();
  const tests: CutWord[] = [];
  const others: CutWord[] = [];
  for (const word of all) {
    const template = templates.get(word.word);
    if (!vocabulary.includes(word.word)) {
      if (others.length < OTHERS_MAX && (word.place + word.index) % OTHERS_EVERY === 0) others.push(word);
    } else if (template === undefined) templates.set(word.word, word);
    else if (template.wav !== word.wav && tests.length < TESTS_MAX) {
      if (tests.filter((test) => test.word === word.word).length < TESTS_OF_A_WORD_MAX) tests.push(word);
    }
  }
  return { speaker, templates: [...templates.values()], tests, others };
}
