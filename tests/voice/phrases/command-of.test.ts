/** A slip in a tag never becomes an act: what is not exactly a command's meaning is refused, field by field. */
import { describe, expect, it } from 'vitest';
import type { Command } from '../../../src/domain/command';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { UNITS } from '../../../src/domain/quantity';
import { commandOf, isCommandName } from '../../../src/voice/phrases/command-of';
import { loadPhraseBook } from '../../../src/voice/phrases/phrase-book';
import { slotPhrase, normalised } from '../../../src/voice/phrases/phrase-for';
import type { Meaning } from '@stowcall/grammar';
import { ALL, jsgfFor, phraseBook, SOURCES } from './book';

const detailOf = (rule: string, meaning: Meaning): string => {
  const read = commandOf(rule, meaning);
  return read.ok ? 'read' : `${read.reason}: ${read.detail}`;
};
const FIX = 'Correct the tags of the grammar.';

describe('the meaning of a command', () => {
  it.each(UNITS)('a length in %s', (unit) => {
    expect(commandOf('measured', { name: 'measured', value: 1.5, unit })).toMatchObject({ ok: true, value: { unit } });
  });
  it.each(COUNT_NOUNS)('a count of %s', (noun) => {
    expect(commandOf('count', { name: 'count', count: 0, noun })).toMatchObject({ ok: true, value: { noun } });
  });

  it.each<[string, Meaning, string]>([
    ['none', { name: 'none' }, '$none is the name of no command.'],
    ['toString', { name: 'toString' }, '$toString is the name of no command.'],
    ['affirm', 'affirm', '$affirm must mean an object.'],
    ['affirm', null, '$affirm must mean an object.'],
    ['affirm', ['affirm'], '$affirm must mean an object.'],
    ['affirm', {}, '$affirm must carry its own name.'],
    ['affirm', { name: 'negative' }, '$affirm must carry its own name.'],
    ['affirm', { name: 'affirm', count: 1 }, '$affirm must mean its name alone.'],
    ['finding', { name: 'finding' }, '$finding must mean a number from 1.'],
    ['finding', { name: 'finding', number: 0 }, '$finding must mean a number from 1.'],
    ['finding', { name: 'finding', number: '1' }, '$finding must mean a number from 1.'],
    ['finding', { name: 'finding', number: 1.5 }, '$finding must mean a number from 1.'],
    ['finding', { name: 'finding', number: 1, more: 1 }, '$finding must mean a number from 1.'],
    ['goToStage', { name: 'goToStage', stage: 0 }, '$goToStage must mean a stage from 1.'],
    ['goToStage', { name: 'goToStage', number: 1 }, '$goToStage must mean a stage from 1.'],
    ['goToStage', { name: 'goToStage', stage: 1, more: 1 }, '$goToStage must mean a stage from 1.'],
    [
      'count',
      { name: 'count', count: -1, noun: 'stows' },
      '$count must mean a whole count and a noun that is counted.',
    ],
    ['count', { name: 'count', count: 1, noun: 'fish' }, '$count must mean a whole count and a noun that is counted.'],
    ['count', { name: 'count', count: 1, noun: null }, '$count must mean a whole count and a noun that is counted.'],
    ['count', { name: 'count', count: 1 }, '$count must mean a whole count and a noun that is counted.'],
    [
      'count',
      { name: 'count', count: 1, noun: 'stows', more: 1 },
      '$count must mean a whole count and a noun that is counted.',
    ],
    ['measured', { name: 'measured', value: -1, unit: null }, '$measured must mean a length and a known unit or none.'],
    [
      'measured',
      { name: 'measured', value: '1', unit: null },
      '$measured must mean a length and a known unit or none.',
    ],
    ['measured', { name: 'measured', value: 1, unit: 'yd' }, '$measured must mean a length and a known unit or none.'],
    ['measured', { name: 'measured', value: 1, unit: 1 }, '$measured must mean a length and a known unit or none.'],
    ['measured', { name: 'measured', value: 1 }, '$measured must mean a length and a known unit or none.'],
    [
      'measured',
      { name: 'measured', value: 1, unit: null, more: 1 },
      '$measured must mean a length and a known unit or none.',
    ],
  ])('of $%s is not %j', (rule, meaning, sentence) => {
    expect(detailOf(rule, meaning)).toBe(`bad-meaning: ${sentence} ${FIX}`);
  });

  it.each<[string, Meaning, Command]>([
    ['count', { name: 'count', count: 2, noun: 'ties' }, { name: 'count', count: 2, noun: 'ties' }],
    ['affirm', { name: 'affirm' }, { name: 'affirm' }],
    ['finding', { name: 'finding', number: 1 }, { name: 'finding', number: 1 }],
    ['goToStage', { name: 'goToStage', stage: 1 }, { name: 'goToStage', stage: 1 }],
    ['measured', { name: 'measured', value: 0, unit: null }, { name: 'measured', value: 0, unit: null }],
  ])('of $%s is %j', (rule, meaning, command) => {
    expect(commandOf(rule, meaning)).toEqual({ ok: true, value: command });
  });

  it('numbers that are none come from nowhere else', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(commandOf('measured', { name: 'measured', value, unit: null }).ok).toBe(false);
    }
  });

  it('knows its names', () => {
    expect(COMMAND_NAMES.every(isCommandName)).toBe(true);
    expect(isCommandName('')).toBe(false);
  });
});

describe('words of a command', () => {
  it.each<[Command, string | null]>([
    [{ name: 'affirm' }, null],
    [{ name: 'count', count: 1, noun: 'stows' }, 'one stow'],
    [{ name: 'count', count: 1, noun: 'tools' }, 'one tool'],
    [{ name: 'count', count: 1, noun: 'lines' }, 'one line'],
    [{ name: 'count', count: 1, noun: 'gores' }, 'one gore'],
    [{ name: 'count', count: 1, noun: 'cells' }, 'one cell'],
    [{ name: 'count', count: 1, noun: 'wraps' }, 'one wrap'],
    [{ name: 'count', count: 1, noun: 'ties' }, 'one tie'],
    [{ name: 'count', count: 1, noun: 'bands' }, 'one band'],
    [{ name: 'count', count: 22, noun: 'bands' }, 'twenty two bands'],
    [{ name: 'finding', number: 21 }, 'finding twenty one'],
    [{ name: 'goToStage', stage: 14 }, 'go to stage fourteen'],
    [{ name: 'measured', value: 0.5, unit: null }, 'measured a half'],
    [{ name: 'measured', value: 0.25, unit: null }, 'measured a quarter'],
    [{ name: 'measured', value: 1, unit: null }, 'measured one'],
    [{ name: 'measured', value: 1.25, unit: null }, 'measured one and a quarter'],
    [{ name: 'measured', value: 0.5, unit: 'in' }, 'measured half an inch'],
    [{ name: 'measured', value: 999, unit: 'in' }, 'measured nine hundred ninety nine inches'],
    [{ name: 'measured', value: 999.5, unit: 'in' }, 'measured nine hundred ninety nine and a half inches'],
    [{ name: 'measured', value: 1_000, unit: 'in' }, 'measured eighty three feet four inches'],
    [{ name: 'measured', value: 1_000.5, unit: 'in' }, 'measured eighty three feet four and a half inches'],
    [{ name: 'measured', value: 1_008.5, unit: 'in' }, 'measured eighty four feet a half inch'],
    [{ name: 'measured', value: 1_008.25, unit: 'in' }, 'measured eighty four feet a quarter inch'],
    [{ name: 'measured', value: 12_000, unit: 'in' }, 'measured nine hundred ninety nine feet twelve inches'],
    [{ name: 'measured', value: 2_000, unit: 'mm' }, 'measured two thousand millimetres'],
    [{ name: 'measured', value: 1.0625, unit: 'in' }, 'measured one and a sixteenth inches'],
    [{ name: 'measured', value: 0.0625, unit: 'ft' }, 'measured a sixteenth of a foot'],
    [{ name: 'measured', value: 0.0625, unit: 'cm' }, 'measured a sixteenth of a centimetre'],
    [{ name: 'measured', value: 42, unit: 'cm' }, 'measured forty two centimetres'],
    [{ name: 'measured', value: 4.2, unit: 'cm' }, 'measured four decimal two centimetres'],
    [{ name: 'measured', value: 1.0625, unit: 'cm' }, 'measured one and a sixteenth centimetres'],
    [{ name: 'measured', value: 0.0625, unit: 'mm' }, 'measured a sixteenth of a millimetre'],
    [{ name: 'measured', value: 1.0625, unit: 'mm' }, 'measured one and a sixteenth millimetres'],
  ])('%j', (command, phrase) => {
    expect(slotPhrase(command)).toBe(phrase);
  });

  it.each([
    ['Stand-by, please.', 'stand by please'],
    ['  a \t b\n', 'a b'],
    ['A;B:C!D?E.F', 'a b c d e f'],
    ["o'clock", "o'clock"],
    ['', ''],
    [' - ', ''],
  ])('%j is heard as "%s"', (text, words) => {
    expect(normalised(text)).toBe(words);
  });
});

describe('a phrase book that is refused says where and what to do', () => {
  const loaded = (file: string, from: string | RegExp, to: string): string => {
    const sources = SOURCES.map((source) =>
      source.file === file ? { file, text: source.text.replace(from, to) } : source,
    );
    const book = loadPhraseBook(sources);
    return book.ok ? 'loaded' : `${book.reason}: ${book.detail}`;
  };
  it.each([
    [
      'commands.gram',
      /public \$finish = .*/,
      '',
      'missing-command: commands.gram has no rule $finish; every command needs one.',
    ],
    [
      'commands.gram',
      /countTies/g,
      'countKnots',
      'missing-command: commands.gram has no rule $countTies; every command needs one.',
    ],
    ['numbers.gram', /$/, '\n$lonely = nobody;\n', 'dead-rule: $lonely in numbers.gram is used by no command.'],
    ['commands.gram', 'stop and tag', '$VOID stop', 'dead-rule: $stopAndTag in commands.gram can never be said.'],
    [
      'commands.gram',
      '{out.name = "affirm";}',
      '{out.name = ;}',
      'bad-tag: The tag {out.name = ;} cannot be understood: ";" was not expected here.',
    ],
  ])('%s: %s -> %s', (...[file, from, to, expected]) => {
    expect(loaded(file, from, to)).toBe(expected);
  });

  it('of another tag format, or without its main file', () => {
    expect(loaded('numbers.gram', '<semantics/1.0>', '<other/2.0>')).toMatch(
      /^bad-tag: The tag \{.*\} cannot be understood: The tag format must be <semantics\/1\.0>\.$/s,
    );
    const none = loadPhraseBook([]);
    expect(none.ok ? '' : none.detail).toBe('The file commands.gram is missing; add it.');
  });

  it('is loaded from whatever folder its files are told of', () => {
    const moved = SOURCES.map(({ file, text }) => ({ file: `/somewhere/./else/${file}`, text }));
    expect(loadPhraseBook(moved).ok).toBe(true);
  });
});

describe('the book', () => {
  // Read in each test: a book that cannot be read fails them all, and not the file before its first.
  const book = () => phraseBook();
  it('takes each command and noun once, however often it is named', () => {
    const twice = { commands: ['count', 'count', 'affirm', 'affirm'], nouns: ['ties', 'ties'] } as const;
    const once = { commands: ['count', 'affirm'], nouns: ['ties'] } as const;
    expect(jsgfFor(book(), twice, null)).toEqual(jsgfFor(book(), once, null));
    expect(book().allPhrases(twice, 3)).toEqual(book().allPhrases(once, 3));
    expect(
      book()
        .allPhrases(once, 1)
        .map(({ rule }) => rule),
    ).toEqual(['count', 'affirm']);
  });

  it('hears nothing in nothing', () => {
    for (const nothing of ['', '  ', '-.-']) expect(book().understand(ALL, nothing)).toEqual({ kind: 'none' });
  });

  it('a command whose tags mean something else is a question, never an act', () => {
    const other = (to: string) =>
      phraseBook(
        SOURCES.map((source) =>
          source.file === 'commands.gram'
            ? { ...source, text: source.text.replace('{out.name = "affirm";}', to) }
            : source,
        ),
      ).understand(ALL, 'affirm');
    expect(other('{out.name = "negative";}')).toEqual({ kind: 'ambiguous', candidates: [] });
    expect(other('{out.name = nothing;}')).toEqual({ kind: 'ambiguous', candidates: [] });
  });

  it('a command with two meanings is a question with both', () => {
    const text = (SOURCES[0]?.text ?? '').replace(
      /public \$finding = .*/,
      'public $finding = finding {out.name = "finding";} (two {out.number = 2;} | two {out.number = 3;});',
    );
    const two = phraseBook(SOURCES.map((source) => (source.file === 'commands.gram' ? { ...source, text } : source)));
    expect(two.understand(ALL, 'finding two')).toEqual({
      kind: 'ambiguous',
      candidates: [
        { name: 'finding', number: 2 },
        { name: 'finding', number: 3 },
      ],
    });
  });

  it('a command of more readings than are kept is a question, though all that are kept agree', () => {
    const ways = (count: number) => {
      const many = Array.from({ length: count }, () => 'two {out.number = 2;}').join(' | ');
      const text = (SOURCES[0]?.text ?? '').replace(
        /public \$finding = .*/,
        `public $finding = finding {out.name = "finding";} (${many});`,
      );
      return phraseBook(SOURCES.map((source) => (source.file === 'commands.gram' ? { ...source, text } : source)));
    };
    const finding = { name: 'finding', number: 2 };
    expect(ways(8).understand(ALL, 'finding two')).toEqual({ kind: 'command', command: finding, rule: 'finding' });
    expect(ways(9).understand(ALL, 'finding two')).toEqual({ kind: 'ambiguous', candidates: [finding] });
  });

  it('the phone loop lies beside the commands where one is given', () => {
    const loop = { phones: ['AA'], weight: 0.5, wordOf: () => 'ph_aa' };
    const vocabulary = { commands: ['affirm'], nouns: [] } as const;
    expect(jsgfFor(book(), vocabulary, loop).jsgf).toContain('<phone> = ph_aa;');
    expect(jsgfFor(book(), vocabulary, null).jsgf).not.toContain('<phone>');
  });

  it('a figure that would be heard as another one is a broken assumption', () => {
    expect(() => book().phraseFor({ name: 'measured', value: 1.00001, unit: 'in' })).toThrow('is not understood as');
  });

  it('a figure that cannot be said is a broken assumption', () => {
    expect(() => book().phraseFor({ name: 'finding', number: 1_000 })).toThrow(
      'is not understood as {"name":"finding"',
    );
    expect(() => book().phraseFor({ name: 'count', count: 2.5, noun: 'ties' })).toThrow('Broken assumption');
  });
});
