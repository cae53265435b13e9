/** Finds the commands that sound most alike, from the pronunciations of the recogniser's own dictionary. */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import type { CommandName } from '../../domain/command';
import { COUNT_NOUNS } from '../../domain/procedure';
import type { Result } from '../../domain/result';
import { ok } from '../../domain/result';
import { loadPhraseBook } from '../../voice/phrases/phrase-book';
import type { PhraseBook } from '../../voice/phrases/phrase-book';
import { nearestPairs, parsePronunciations, pronunciationsByWord } from '@stowcall/grammar';
import type { Pair, Pronunciations, Spoken } from '@stowcall/grammar';

/**
 * As much as one closed syllable: a vowel and two consonants. A pair of commands that are legal together and nearer than
 * this fails the build.
 */
export const FLOOR = 2.4;

const GRAMMARS = ['commands.gram', 'numbers.gram', 'quantities.gram'] as const;
const DICTIONARY = 'node_modules/soundswallower/model/en-us/dict.txt';

/** Sentences of each command that are compared: the first ones of the grammar, which are the shortest. */
const SAMPLE = 60;

const WORKING: readonly CommandName[] = [
  'sayAgain',
  'whatRemains',
  'standBy',
  'correction',
  'callInspector',
  'reopenStage',
  'stopAndTag',
];

/** What can be legal at the same time, by what a person is doing; wider than any one screen where that costs nothing. */
export const LEGAL_TOGETHER: Readonly<Record<string, readonly CommandName[]>> = {
  'at a stage': [...WORKING, 'stageComplete', 'itemPlaced', 'itemRemoved', 'stow', 'count'],
  measuring: [...WORKING, 'measured'],
  'looking at the tray': [...WORKING, 'itemsSeen'],
  'at the card': ['cardPlaced', 'sayAgain', 'whatRemains', 'standBy', 'correction', 'stopAndTag'],
  answering: ['affirm', 'negative', 'sayAgain'],
  inspecting: [
    'releaseHold',
    'returnHold',
    'readList',
    'sayAgain',
    'whatRemains',
    'standBy',
    'stopAndTag',
    'callInspector',
  ],
  'naming a finding': ['finding', 'negative', 'sayAgain'],
  'looking over before packing': [...WORKING, 'nothingFound', 'finding', 'readList'],
  'naming a stage': ['goToStage', 'affirm', 'negative', 'sayAgain'],
  'standing by': ['resume', 'sayAgain', 'whatRemains', 'stopAndTag'],
  rehearsing: ['next', 'slower', 'faster', 'goToStage', 'finish', 'sayAgain'],
};

/** Dictionary of the recogniser, and what it lacks. */
export function readPronunciations(): Result<Pronunciations, 'bad-pronunciation'> {
  const read = parsePronunciations(
    readFileSync(DICTIONARY, 'utf8'),
    readFileSync('grammars/pronunciations.txt', 'utf8'),
  );
  return read.ok ? ok(pronunciationsByWord(read.value)) : read;
}

function readBook(): Result<PhraseBook> {
  return loadPhraseBook(GRAMMARS.map((file) => ({ file, text: readFileSync(`grammars/${file}`, 'utf8') })));
}

/** A count of one stow, heard as "stow", is no mistake. */
function meansOneStow({ phrase, of }: Spoken<CommandName>): boolean {
  return of === 'stow' || phrase === 'one stow' || phrase === 'one stows';
}

export interface Confusion extends Pair<CommandName> {
  readonly when: string;
}

/** All pairs of phrases of different commands that can be legal together, nearest first. */
export function confusions(book: PhraseBook, known: Pronunciations): Result<readonly Confusion[]> {
  const all: Confusion[] = [];
  for (const [when, commands] of Object.entries(LEGAL_TOGETHER)) {
    const phrases = book
      .allPhrases({ commands, nouns: COUNT_NOUNS }, SAMPLE)
      .map(({ rule, phrase }) => ({ phrase, of: rule }));
    const pairs = nearestPairs(phrases, known, (a, b) => a.of === b.of || (meansOneStow(a) && meansOneStow(b)));
    if (!pairs.ok) return pairs;
    all.push(...pairs.value.map((pair) => ({ ...pair, when })));
  }
  return ok(all.sort((a, b) => a.distance - b.distance));
}

/** `stowcall confusions [--show N] [--floor D]`: the exit code is 1 when a pair is nearer than the floor. */
export async function runConfusions(args: readonly string[]): Promise<number> {
  const { values } = parseArgs({
    args: [...args],
    options: { show: { type: 'string', default: '20' }, floor: { type: 'string', default: String(FLOOR) } },
  });
  const book = readBook();
  const known = readPronunciations();
  const found = book.ok && known.ok ? confusions(book.value, known.value) : null;
  if (!book.ok || !known.ok || found === null || !found.ok) {
    const trouble = [book, known, found].find((result) => result !== null && !result.ok);
    console.error(trouble !== undefined && trouble !== null && !trouble.ok ? trouble.detail : 'Nothing to compare.');
    return 2;
  }
  const floor = Number(values.floor);
  for (const { a, b, distance, when } of found.value.slice(0, Number(values.show))) {
    console.log(`${distance.toFixed(2)}  ${a.of} "${a.phrase}"  ~  ${b.of} "${b.phrase}"  (${when})`);
  }
  const near = found.value.filter(({ distance }) => distance < floor - 1e-9).length;
  console.log(`${found.value.length} pairs compared, ${near} below the floor of ${floor.toFixed(2)}`);
  return near === 0 ? 0 : 1;
}
