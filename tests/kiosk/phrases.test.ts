/** What the kiosk tells people to say is what the grammar understands, and as the command that is meant. */
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../src/domain/command';
import { COUNT_NOUNS } from '../../src/domain/procedure';
import { demoPhrases } from '../e2e/support/demo-loft';
import { WORDING } from '../../src/packing/machine/legal';

const book = demoPhrases();
const EVERYTHING = { commands: COMMAND_NAMES, nouns: COUNT_NOUNS };

describe('phrases on the controls', () => {
  it.each(COMMAND_NAMES)('%s: its phrase is heard as that command and no other', (name) => {
    const { phrase } = WORDING[name];
    const understood = book.understand(EVERYTHING, phrase);
    expect(understood.kind === 'command' ? understood.command.name : understood.kind).toBe(name);
  });
});
