/** What the search found for one utterance, and whether all of the utterance is in it. */
import { isPhoneWord } from './network';

/** One word or pause of the path, with its first and last frame of 10 ms. */
export interface Segment {
  readonly word: string;
  readonly first: number;
  readonly last: number;
  /** Sounds of the word; 0 for a pause. */
  readonly phones: number;
}

export interface Decoding {
  /** The words of the path in order; those of the filler model are not among them. */
  readonly words: readonly string[];
  /** True where some of the speech was none of the grammar's words. */
  readonly other: boolean;
  readonly segments: readonly Segment[];
  /** The engine's path score: higher is better, comparable within one utterance and grammar alone. */
  readonly score: number;
  readonly frames: number;
}

/** The engine's name for a step without a word. */
const NO_WORD = '(NULL)';
/** A path may end this many frames before the last one; further off, it broke down on the way. */
const END_FRAMES_MAX = 6;

/** Null where the path does not reach the end of the utterance: its words are then those of a part. */
export function readDecoding(found: {
  readonly segments: readonly Segment[];
  readonly score: number;
  readonly frames: number;
}): Decoding | null {
  const segments = found.segments.filter(({ word }) => word !== NO_WORD);
  const last = segments.at(-1)?.last ?? -1;
  if (last < found.frames - 1 - END_FRAMES_MAX) return null;
  const spoken = segments.filter(({ word }) => !isPause(word));
  return {
    words: spoken.filter(({ word }) => !isPhoneWord(word)).map(({ word }) => plainWord(word)),
    other: spoken.some(({ word }) => isPhoneWord(word)),
    segments,
    score: found.score,
    frames: found.frames,
  };
}

/** A sound that somebody makes lasts no longer than this, even drawn out, and a word has room at its ends. */
const PHONE_FRAMES_MAX = 25;
const WORD_FRAMES_MORE = 30;
/** Loud frames that may be taken for a pause: the end of a breath, an echo. */
const UNEXPLAINED_FRAMES_MAX = 20;

/**
 * Whether somebody could have said it so: no word is drawn out beyond measure, and what was loud is in the words.
 * The engine fits words into any sound: measured, 3 s of hum were its best "measured eight". `loud` has one entry for
 * each frame.
 */
export function isPlausible({ segments }: Decoding, loud: readonly boolean[]): boolean {
  let unexplained = 0;
  for (const { word, first, last, phones } of segments) {
    if (isPause(word)) unexplained += loud.slice(first, last + 1).filter(Boolean).length;
    else if (last - first + 1 > WORD_FRAMES_MORE + PHONE_FRAMES_MAX * phones) return false;
  }
  return unexplained <= UNEXPLAINED_FRAMES_MAX;
}

/** `<sil>` and the noise fillers. */
export function isPause(word: string): boolean {
  return word.startsWith('<') || word.startsWith('[');
}

/** The dictionary marks further pronunciations of a word: `inches(2)`. */
function plainWord(word: string): string {
  return word.replace(/\(\d+\)$/, '');
}
