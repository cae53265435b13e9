/** What else the kiosk knows by name while it listens, so that it is not taken for what is legal now. */
import type { CommandName } from '../domain/command';
import { COMMAND_NAMES } from '../domain/command';
import { COUNT_NOUNS } from '../domain/procedure';
import type { PhraseBook } from './grammar/phrase-book';
import type { Vocabulary } from './hearing';

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

/** Any number words, however many, where numbers can be said: with the words that may stand around a legal one. */
function longerNumbers({ commands, nouns }: Vocabulary, phraseBook: PhraseBook): readonly string[] {
  const forms: readonly (readonly [CommandName, string])[] = [
    ['measured', '<number>+ | [measured] <many> [<unit>]'],
    ['count', nouns.map((noun) => `<many> ${noun}`).join(' | ')],
    ['finding', 'finding <many>'],
    ['goToStage', 'go to stage <many>'],
  ];
  const legal = forms.flatMap(([name, form]) => (commands.includes(name) && form !== '' ? [form] : []));
  if (legal.length === 0) return [];
  const numbers = numberWords(phraseBook);
  const rules = [
    `<number> = ${numbers.join(' | ')};`,
    `<plain> = ${numbers.filter((word) => !RARE.includes(word)).join(' | ')};`,
    // More figures than a legal number has: with fewer, "forty two oh inches" would stand against "forty two inches".
    '<many> = <plain> <plain> <plain> <plain>+ | <plain>+ thousand <plain>*;',
    `<unit> = ${UNITS.join(' | ')};`,
    `public <numbers> = ${legal.join(' | ')};`,
  ];
  return [`#JSGF V1.0; grammar numbers; ${rules.join(' ')}`];
}

/**
 * The grammars of all that is known and not legal. Measured on recorded people who said more figures than any length
 * has: of 36 such strings 16 were heard as lengths ("fifty six sixty nine" as "fifty six feet sixty nine inch") until
 * free strings of number words were known as well; and of 20 commands with more figures than are legal, in two made
 * voices, 7 were heard as legal ones ("one five two seven inches" as "one five foot two seven inches").
 */
export function otherGrammarsFor(vocabulary: Vocabulary, phraseBook: PhraseBook): readonly string[] {
  return [phraseBook.jsgfFor(othersOf(vocabulary), null).jsgf, ...longerNumbers(vocabulary, phraseBook)];
}
