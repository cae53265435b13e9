/** What else the kiosk knows by name while it listens, so that it is not taken for what is legal now. */
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

/** Any number words, however many. */
function longerNumbers(phraseBook: PhraseBook): string {
  const ones = ['stow', 'stows', 'and'];
  const { words } = phraseBook.jsgfFor({ commands: ['count'], nouns: ['stows'] }, null);
  const number = [...words.filter((word) => !ones.includes(word)), 'thousand'].join(' | ');
  return `#JSGF V1.0; grammar numbers; <number> = ${number}; public <numbers> = <number>+;`;
}

/**
 * The grammars of all that is known and not legal. Measured on recorded people who said more figures than any length
 * has: of 36 such strings 16 were heard as lengths ("fifty six sixty nine" as "fifty six feet sixty nine inch") until
 * free strings of number words were known as well.
 */
export function otherGrammarsFor(vocabulary: Vocabulary, phraseBook: PhraseBook): readonly string[] {
  const others = phraseBook.jsgfFor(othersOf(vocabulary), null).jsgf;
  return vocabulary.commands.includes('measured') ? [others, longerNumbers(phraseBook)] : [others];
}
