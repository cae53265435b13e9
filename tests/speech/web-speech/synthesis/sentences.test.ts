/** Cutting texts into sentences: nothing is lost, nothing is said twice, numbers stay whole. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LONGEST, splitSentences } from '../../../../src/speech/web-speech/synthesis/sentences';

describe('sentences', () => {
  it.each([
    ['Stage complete.', ['Stage complete.']],
    ['Stage four. Fold the nose.', ['Stage four.', 'Fold the nose.']],
    ['Is it 1.5 inches? Affirm!', ['Is it 1.5 inches?', 'Affirm!']],
    ['Wait... then go on.', ['Wait...', 'then go on.']],
    ['He said "stop." Then he left.', ['He said "stop."', 'Then he left.']],
    ['One\ntwo\n\nthree', ['One', 'two', 'three']],
    ['First; second', ['First;', 'second']],
    ['no end', ['no end']],
    ['', []],
    [' \n ', []],
  ])('%j', (text, sentences) => {
    expect(splitSentences(text).map((sentence) => sentence.text)).toEqual(sentences);
  });

  it('a long sentence is cut at its last comma within the limit', () => {
    const head = `${'word '.repeat(20)}word,`;
    const sentences = splitSentences(`${head} ${'more '.repeat(30)}.`);
    expect(sentences[0]?.text).toBe(head);
  });

  const pieces = fc.constantFrom('fold', '4.25', ' ', ' ', '. ', ', ', '\n', '? ', '"', 'x'.repeat(200), ';', '!');
  it('no text loses a character, and each sentence is where it says', () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 60 }), (parts) => {
        const text = parts.join('');
        const sentences = splitSentences(text);
        const bare = (value: string) => value.replace(/\s/g, '');
        expect(bare(sentences.map((sentence) => sentence.text).join(''))).toBe(bare(text));
        for (const sentence of sentences) {
          expect(text.slice(sentence.charIndex, sentence.charIndex + sentence.text.length)).toBe(sentence.text);
          expect(sentence.text.length).toBeLessThanOrEqual(LONGEST);
          expect(sentence.text.trim()).toBe(sentence.text);
          expect(sentence.text).not.toBe('');
        }
      }),
    );
  });
});
