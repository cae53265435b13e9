/** The phrase book as the kiosk uses it: what is said is understood, and only within the vocabulary. */
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import type { Command, CommandName } from '../../../src/domain/command';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { loadPhraseBook } from '../../../src/voice/phrases/phrase-book';
import { ALL, jsgfFor, phraseBook, SOURCES } from './book';

const book = phraseBook();
const PLAIN = COMMAND_NAMES.filter(
  (name): name is Exclude<CommandName, 'count' | 'measured' | 'finding' | 'goToStage' | 'reopenStage'> =>
    !['count', 'measured', 'finding', 'goToStage', 'reopenStage'].includes(name),
);

describe('phraseFor and understand are each other’s inverse', () => {
  const commands: readonly Command[] = [
    ...PLAIN.map((name) => ({ name })),
    ...COUNT_NOUNS.flatMap((noun) => [0, 1, 2, 47, 100].map((count) => ({ name: 'count' as const, count, noun }))),
    ...[1, 2, 19, 20, 99].map((number) => ({ name: 'finding' as const, number })),
    ...[1, 4, 30, 99].flatMap((stage) => [
      { name: 'goToStage' as const, stage },
      { name: 'reopenStage' as const, stage },
    ]),
    ...([null, 'in', 'ft', 'cm', 'mm'] as const).flatMap((unit) =>
      [0, 0.5, 1, 1.25, 42, 999].map((value) => ({ name: 'measured' as const, value, unit })),
    ),
  ];
  it.each(commands)('%j', (command) => {
    expect(book.understand(ALL, book.phraseFor(command))).toEqual({ kind: 'command', command, rule: command.name });
  });
});

describe('the vocabulary is a wall', () => {
  it('does not hear a command that is not legal now', () => {
    expect(book.understand({ commands: ['affirm', 'negative'], nouns: [] }, 'stage complete')).toEqual({
      kind: 'none',
    });
  });

  it('does not hear tools where stows are counted', () => {
    const vocabulary = { commands: ['count'] as const, nouns: ['stows'] as const };
    expect(book.understand(vocabulary, 'five tools')).toEqual({ kind: 'none' });
    expect(book.understand(vocabulary, 'five stows').kind).toBe('command');
  });

  it('does not hear counts without a noun to count', () => {
    expect(book.understand({ commands: ['count'], nouns: [] }, 'five stows')).toEqual({ kind: 'none' });
  });

  it('writes only what is legal into the recogniser’s grammar', () => {
    const { jsgf, words } = jsgfFor(book, { commands: ['affirm', 'count'], nouns: ['ties'] }, null);
    expect(words).toContain('ties');
    expect(words).toContain('affirm');
    expect(words).not.toContain('stows');
    expect(words).not.toContain('negative');
    expect(jsgf).not.toContain('negative');
  });
});

describe('a bad phrase book is refused when it is read', () => {
  const changed = (file: string, from: string | RegExp, to: string) =>
    loadPhraseBook(
      SOURCES.map((source) => {
        if (source.file !== file) return source;
        const text = source.text.replace(from, to);
        expect(text).not.toBe(source.text);
        return { file, text };
      }),
    );

  it.each([
    ['a command without a rule', 'commands.gram', /public \$finish = .*/, '', 'missing-command'],
    ['a noun without a rule', 'commands.gram', /countTies/g, 'countKnots', 'missing-command'],
    ['a rule that nothing uses', 'numbers.gram', /$/, '\n$lonely = nobody;\n', 'dead-rule'],
    ['a rule that cannot be said', 'commands.gram', 'stop and tag', '$VOID stop', 'dead-rule'],
    ['a tag that is no script', 'commands.gram', '{out.name = "affirm";}', '{out.name = ;}', 'bad-tag'],
    ['a tag format that is not known', 'numbers.gram', '<semantics/1.0>', '<other/2.0>', 'bad-tag'],
    ['a reference to nothing', 'commands.gram', 'quantities.gram', 'nowhere.gram', 'unresolved-reference'],
    ['a slip of the pen', 'commands.gram', 'public $stow =', 'public $stow', 'bad-grammar'],
  ])('%s', (...[, file, from, to, reason]) => {
    const loaded = changed(file, from, to);
    expect(loaded).toMatchObject({ ok: false, reason });
  });

  it('the commands file is missing', () => {
    expect(loadPhraseBook([])).toMatchObject({ ok: false, reason: 'missing-command' });
  });
});
