/**
 * Finds commands in prompts. Where the kiosk's voice reaches the microphone late (a network loudspeaker), the ear opens
 * while a prompt is still heard, and what follows the next pause of it is taken for an utterance.
 */
import { COMMAND_NAMES, type CommandName } from '../../domain/command';
import { COUNT_NOUNS } from '../../domain/procedure';
import { sayNumber } from '../../domain/spoken';
import type { PhraseBook, PhraseVocabulary } from './phrase-book';

/** The voice pauses here for 330 ms and more, which through the echo of a room ends an utterance. */
const LONG_PAUSES = /[.!?;\n]+(?=\s|$)/;
/**
 * Here it pauses for 80 to 120 ms (flite's rms at rate 1): too short to end an utterance, which takes 450 ms, and long
 * enough to begin one.
 */
const SHORT_PAUSES = /[,:()]+/;
/** No phrase of the grammar has more words than this, however long the number in it. */
const WORDS_MAX = 12;

function wordsOf(text: string): readonly string[] {
  const figures = text.replace(/\d+/g, (figure) => (Number(figure) <= 999 ? ` ${sayNumber(Number(figure))} ` : figure));
  return figures
    .replace(/[^\p{L}\p{N}'’]+/gu, ' ')
    .trim()
    .split(/\s+/)
    .filter((word) => word !== '');
}

/** What is left of a sentence after each short pause. */
function suffixes(sentence: string): readonly (readonly string[])[] {
  const pieces = sentence.split(SHORT_PAUSES).map(wordsOf);
  return pieces.map((_, from) => pieces.slice(from).flat());
}

/** The last one, two, three … words of a text. */
function endings(text: string): readonly (readonly string[])[] {
  const words = wordsOf(text);
  const most = Math.min(words.length, WORDS_MAX);
  return Array.from({ length: most }, (_, index) => words.slice(words.length - index - 1));
}

function firstOf(book: PhraseBook, vocabulary: PhraseVocabulary, heard: readonly (readonly string[])[]): string | null {
  const found = heard.find(
    (words) =>
      words.length > 0 && words.length <= WORDS_MAX && book.understand(vocabulary, words.join(' ')).kind !== 'none',
  );
  return found === undefined ? null : found.join(' ');
}

/**
 * The words of a prompt that are a phrase of this vocabulary: those with which it ends, a sentence, or what is left of
 * one after a pause. Null where nothing of it can be taken for a command.
 * @internal Asked of every prompt of the kiosk by a test; the program asks it of texts in files (`anyCommandIn`).
 */
export function commandIn(book: PhraseBook, vocabulary: PhraseVocabulary, text: string): string | null {
  return firstOf(book, vocabulary, [...text.split(LONG_PAUSES).flatMap(suffixes), ...endings(text)]);
}

/** Commands that the texts of a stage may end in: while it is worked on, a prompt always goes on after them. */
const WORK: readonly CommandName[] = ['stow', 'count', 'measured'];

/**
 * The same for a text that becomes part of prompts, whatever is legal then. It ends a prompt only where a finding is
 * chosen and in a rehearsal, so it may end in a number of stows or a length.
 */
export function anyCommandIn(book: PhraseBook): (text: string) => string | null {
  const others = { commands: COMMAND_NAMES.filter((name) => !WORK.includes(name)), nouns: [] };
  return (text) =>
    firstOf(book, { commands: COMMAND_NAMES, nouns: COUNT_NOUNS }, text.split(LONG_PAUSES).flatMap(suffixes)) ??
    firstOf(book, others, endings(text));
}
