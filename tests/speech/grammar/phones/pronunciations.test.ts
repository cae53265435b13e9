/** Pronunciation dictionaries: what is read of them, as a list and by word, and which line is refused. */
import { describe, expect, it } from 'vitest';
import { parsePronunciations } from '../../../../src/speech/grammar/phones/pronunciations';
import { known } from './known';

describe('as a list', () => {
  it('has each entry as it is written, comments and white space aside', () => {
    expect(parsePronunciations('# no\n\nstows  S T OW Z\n stows(2) S T AO Z \n')).toEqual({
      ok: true,
      value: [
        ['stows', 'S T OW Z'],
        ['stows(2)', 'S T AO Z'],
      ],
    });
  });

  it('goes on from one text to the next', () => {
    expect(parsePronunciations('a AH', 'b B IY')).toEqual({
      ok: true,
      value: [
        ['a', 'AH'],
        ['b', 'B IY'],
      ],
    });
  });
});

describe('by word', () => {
  it('has words, their further pronunciations, comments and empty lines', () => {
    const words = known(
      '# remark\n;; remark\r\n\r\n \t\n  stow   S T OW \nstow(2) S OW\nstow(12) T OW\n',
      'a(b) AH\nx(2)y AH\n',
    );
    expect([...words.entries()]).toEqual([
      [
        'stow',
        [
          ['S', 'T', 'OW'],
          ['S', 'OW'],
          ['T', 'OW'],
        ],
      ],
      ['a(b)', [['AH']]],
      ['x(2)y', [['AH']]],
    ]);
  });

  it('reads several texts, comments, and further pronunciations', () => {
    const words = known(';;; remark\nstow S T OW\neighth EY T TH\neighth(2) EY TH\n', '# more\nfower F OW ER\n');
    expect(words.get('stow')).toEqual([['S', 'T', 'OW']]);
    expect(words.get('eighth')).toHaveLength(2);
    expect(words.get('fower')).toHaveLength(1);
  });
});

describe('a line that is refused', () => {
  const fault = (text: string): string => {
    const bad = parsePronunciations(text);
    return bad.ok ? 'read' : `${bad.reason}: ${bad.detail}`;
  };

  it.each([
    ['a AH\n\nstow', 'bad-pronunciation: Line 3, "stow", has no phones; correct it.'],
    ['a AH\nstow S T QX OW', 'bad-pronunciation: Line 2, "stow", has "QX", which is no phone; correct it.'],
    ['stow S T QX', 'bad-pronunciation: Line 1, "stow", has "QX", which is no phone; correct it.'],
    ['a AH\nstow', 'bad-pronunciation: Line 2, "stow", has no phones; correct it.'],
    ['stows', 'bad-pronunciation: Line 1, "stows", has no phones; correct it.'],
    ['stows S T QQ', 'bad-pronunciation: Line 1, "stows", has "QQ", which is no phone; correct it.'],
    [' # AH', 'read'],
    ['x# X', 'bad-pronunciation: Line 1, "x#", has "X", which is no phone; correct it.'],
  ])('%j', (text, sentence) => {
    expect(fault(text)).toBe(sentence);
  });
});
