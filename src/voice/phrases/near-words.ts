/** What else the kiosk knows by name while it listens, so that it is not taken for what is legal now. */
import type { CommandName } from '../../domain/command';
import { COMMAND_NAMES } from '../../domain/command';
import { COUNT_NOUNS } from '../../domain/procedure';
import type { PhraseBook } from './phrase-book';
import type { Vocabulary } from '../hearing';

/**
 * Every other command. "five tools" said at a stowing stage is then heard as what it is, and so not as "five stows".
 * Lengths are left out where they are not legal: they are a language of their own, and numbers stand in it alone.
 */
export function othersOf(vocabulary: Vocabulary): Vocabulary {
  const isLegal = (name: string): boolean => vocabulary.commands.some((command) => command === name);
  return {
    commands: COMMAND_NAMES.filter((name) => name === 'count' || (name !== 'measured' && !isLegal(name))),
    nouns: COUNT_NOUNS.filter((noun) => !(isLegal('count') && vocabulary.nouns.includes(noun))),
  };
}

const UNITS = 'inch inches foot feet centimetre centimetres millimetre millimetres'.split(' ');

/** Among other words these fit into any sound: measured, "three zero oh five" was as near as "three zero five". */
const RARE = ['oh', 'niner', 'fower', 'fife', 'tree'];

const numbersOf = new WeakMap<PhraseBook, readonly string[]>();

/** Every word of a number; the ear opens many times with one phrase book, and finding them takes a while. */
function numberWords(phraseBook: PhraseBook): readonly string[] {
  const known = numbersOf.get(phraseBook);
  if (known !== undefined) return known;
  const around = ['stow', 'stows', 'and'];
  const { words } = phraseBook.jsgfFor({ commands: ['count'], nouns: ['stows'] }, null);
  const numbers = [...words.filter((word) => !around.includes(word)), 'thousand'];
  numbersOf.set(phraseBook, numbers);
  return numbers;
}

/**
 * Numbers of any length, where numbers can be said: with the words that may stand around a legal one. Measured on
 * recorded people: of 114 number strings that are no lengths 50 were heard as lengths ("fifty six sixty nine" as "fifty
 * six feet sixty nine inch") until such strings were known; and of 40 commands with more figures than are legal, in two
 * made voices, 11 were heard as legal ones ("one two three four tools" as "one three four tools").
 */
export function rivalsFor({ commands, nouns }: Vocabulary, phraseBook: PhraseBook): readonly string[] {
  const forms: readonly (readonly [CommandName, string])[] = [
    ['measured', '[measured] <number>+ [<unit>]'],
    ['count', nouns.map((noun) => `<plain>+ ${noun}`).join(' | ')],
    ['finding', 'finding <plain>+'],
    ['goToStage', 'go to stage <plain>+'],
    ['reopenStage', 'reopen stage <plain>+'],
  ];
  const legal = forms.flatMap(([name, form]) => (commands.includes(name) && form !== '' ? [form] : []));
  if (legal.length === 0) return [];
  const numbers = numberWords(phraseBook);
  const rules = [
    `<number> = ${numbers.map((word) => `/${RARE.includes(word) ? 1 : 10}/ ${word}`).join(' | ')};`,
    `<plain> = ${numbers.filter((word) => !RARE.includes(word)).join(' | ')};`,
    `<unit> = ${UNITS.join(' | ')};`,
    `public <numbers> = ${legal.join(' | ')};`,
  ];
  return [`#JSGF V1.0; grammar numbers; ${rules.join(' ')}`];
}
