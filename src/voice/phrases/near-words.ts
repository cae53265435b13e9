/** What else the kiosk knows by name while it listens, so that it is not taken for what is legal now. */
import { COMMAND_NAMES } from '../../domain/command';
import { COUNT_NOUNS } from '../../domain/procedure';
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
