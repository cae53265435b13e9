/** What a prompt asks a person to say, and what a control says can be said, is understood by the grammars as just that. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import type { LegalCommand } from '../../../src/packing/machine/view';
import { WORDING } from '../../../src/packing/machine/legal';
import { loadPhraseBook } from '../../../src/voice/phrases/phrase-book';
import { step } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';

const folder = `${import.meta.dirname}/../../../grammars`;
const sources = readdirSync(folder)
  .filter((file) => file.endsWith('.gram'))
  .map((file) => ({ file, text: readFileSync(`${folder}/${file}`, 'utf8') }));
const loaded = loadPhraseBook(sources);
if (!loaded.ok) throw new Error(loaded.detail);
const book = loaded.value;

/** Within the vocabulary that is open at that moment. */
function understood(legal: readonly LegalCommand[], one: LegalCommand) {
  const nouns = legal.flatMap(({ input }) => (input.kind === 'count' ? [input.noun] : []));
  return book.understand({ commands: legal.map(({ name }) => name), nouns }, one.phrase);
}

describe('every phrase', () => {
  it.each(COMMAND_NAMES.filter((name) => name !== 'count'))('of %s is in the grammar', (name) => {
    const result = book.understand({ commands: [name], nouns: [] }, WORDING[name].phrase);
    expect(result).toMatchObject({ kind: 'command', command: { name } });
  });

  it('of every legal command all along a pack is understood as that command, among all that is legal then', () => {
    const driver = new PackDriver({ loft: LOFT });
    let checked = 0;
    do {
      const { legal } = driver.view;
      for (const one of legal) {
        expect(understood(legal, one), `${one.name}: ${one.phrase}`).toMatchObject({
          kind: 'command',
          command: { name: one.name },
        });
        checked += 1;
      }
    } while (step(driver));
    expect(driver.view.ended).toBe(true);
    expect(checked).toBeGreaterThan(100);
  });
});
