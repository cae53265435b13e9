/** How far the reading has come: one line after the other, each heard once, or left out after three tries. */
import type { VoiceSample } from '@stowcall/web-speech/core';
import type { Miss } from './patient-sample';
import type { PhraseToRead } from './phrases-to-read';

export interface Reading {
  readonly phrases: readonly PhraseToRead[];
  /** Index of the line to be read now; their number when all are done. */
  readonly at: number;
  /** Tries of this line that gave nothing. */
  readonly tries: number;
  readonly taken: readonly VoiceSample[];
  /** Why the last try gave nothing; null when it gave something, and at the beginning. */
  readonly miss: Miss | null;
  /** Tries in a row in which nobody spoke. */
  readonly silences: number;
}

/** Asked once, and twice again. */
const TRIES = 3;
/** With fewer the ear cannot tell what is near and what is far in this voice, so fewer are not kept. */
export const LINES_MIN = 4;
/** Two lines without a word: whoever began has gone. */
const SILENCES = 2 * TRIES;

export function beginReading(phrases: readonly PhraseToRead[]): Reading {
  return { phrases, at: 0, tries: 0, taken: [], miss: null, silences: 0 };
}

/** The line to be read now; null when all are done. */
export function lineOf({ phrases, at }: Reading): string | null {
  return phrases[at]?.words ?? null;
}

/** A line was heard. A sample of other words than were asked for teaches nothing. */
export function heardLine(reading: Reading, sample: VoiceSample): Reading {
  if (sample.words !== lineOf(reading)) return missedLine(reading, 'not-these-words');
  const { phrases, at, taken } = reading;
  return { phrases, at: at + 1, tries: 0, taken: [...taken, sample], miss: null, silences: 0 };
}

/** A try gave nothing: the same line again, or the next after the last try. */
export function missedLine(reading: Reading, miss: Miss): Reading {
  const silences = miss === 'silence' ? reading.silences + 1 : 0;
  const tries = reading.tries + 1;
  const next = tries < TRIES ? { tries } : { tries: 0, at: reading.at + 1 };
  return { ...reading, ...next, miss, silences };
}

/** The reader does not want to read this line. */
export function skipLine(reading: Reading): Reading {
  return { ...reading, at: reading.at + 1, tries: 0, miss: null, silences: 0 };
}

export function isRead(reading: Reading): boolean {
  return reading.at >= reading.phrases.length;
}

/** Whether what was read is of any use. */
export function isEnough({ taken }: Reading): boolean {
  return taken.length >= LINES_MIN;
}

/** Nobody has spoken for so long that nobody is there. */
export function isLeft(reading: Reading): boolean {
  return reading.silences >= SILENCES;
}
