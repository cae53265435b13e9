/** What the ear is opened with: compiled from the grammar's nodes as it would be from a JSGF text of the same rules. */
import { describe, expect, it } from 'vitest';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { LEGAL_TOGETHER } from '../../../src/tools/commands/confusions';
import type { Vocabulary } from '../../../src/voice/hearing';
import { listenForCommands } from '../../../src/voice/phrases/listen-for';
import { lowRiskOf } from '../../../src/voice/phrases/low-risk';
import { othersOf } from '../../../src/voice/phrases/near-words';
import type { ListenFor } from '@stowcall/web-speech/core';
import { accepts, listenForTexts } from '@stowcall/web-speech/core';
import { jsgfFor, phraseBook } from './book';

const book = phraseBook();
const vocabularies = Object.entries(LEGAL_TOGETHER).map(([when, commands]): [string, Vocabulary] => [
  when,
  { commands, nouns: ['stows', 'tools'] },
]);

function fromNodes(vocabulary: Vocabulary): ListenFor {
  const compiled = listenForCommands(vocabulary, book);
  if (!compiled.ok) throw new Error(compiled.detail);
  return compiled.value;
}

describe('what is listened for', () => {
  it.each(vocabularies)('%s: states, ways and costs are those of the JSGF text', (_, vocabulary) => {
    const risk = lowRiskOf(vocabulary, book);
    const fromText = listenForTexts({
      wanted: [jsgfFor(book, vocabulary).jsgf],
      others: [jsgfFor(book, othersOf(vocabulary)).jsgf],
      lowRisk: risk === null ? [] : [jsgfFor(book, risk).jsgf],
    });
    const { wanted, all, lowRisk } = fromNodes(vocabulary);
    expect(fromText).toMatchObject({ ok: true, value: { wanted, all, lowRisk } });
    expect(wanted.ways.length).toBeGreaterThan(1);
  });

  it('is compiled once for each vocabulary', () => {
    const vocabulary = (): Vocabulary => ({ commands: ['affirm', 'negative'], nouns: [] });
    expect(fromNodes(vocabulary())).toBe(fromNodes(vocabulary()));
    expect(fromNodes({ commands: ['affirm'], nouns: [] })).not.toBe(fromNodes(vocabulary()));
  });

  it('is nothing, and refused, where nothing may be said', () => {
    expect(listenForCommands({ commands: [], nouns: [] }, book)).toMatchObject({ ok: false, reason: 'bad-grammar' });
  });

  it.each(COUNT_NOUNS)('knows longer numbers of %s, from the rule alone that counts them', (noun) => {
    const { rivals } = fromNodes({ commands: ['count'], nouns: [noun] });
    const knows = (words: string): boolean => rivals !== null && accepts(rivals, words.split(' '));
    expect(knows(`two thousand ${noun}`)).toBe(true);
    // A branch without a number makes no rival.
    expect(knows(`one ${noun.slice(0, -1)}`)).toBe(false);
  });
});
