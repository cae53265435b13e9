/** From what is legal now to what the ear is opened for: nothing more (invariant 4). */
import type { CountNoun } from '../domain/procedure';
import type { LegalCommand } from '../packing/machine/view';
import type { Vocabulary } from '../voice/hearing';

/** The vocabulary of exactly these legal commands. */
export function vocabularyOf(legal: readonly LegalCommand[]): Vocabulary {
  const nouns: CountNoun[] = [];
  for (const command of legal) {
    if (command.input.kind === 'count' && !nouns.includes(command.input.noun)) nouns.push(command.input.noun);
  }
  return { commands: [...new Set(legal.map((command) => command.name))], nouns };
}

/** Same words to listen for? Then the ear need not be opened anew. */
export function sameOpening(a: object | null, b: object | null): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
