/** Whatever words come, and however a grammar file is broken, the phrase book ends with an answer. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { linkGrammar, parseAbnf } from '@stowcall/grammar';
import { matchRule } from '../../speech/grammar/match/match-rule';
import { ALL, phraseBook, SOURCES } from './book';

const SIGNS = [...'$<>(){}[]|/;=!#~"\'*-., \n'];

it('whatever words come, understanding ends with an answer', () => {
  const book = phraseBook();
  const word = fc.constantFrom(
    'one',
    'two',
    'stow',
    'stows',
    'and',
    'a',
    'half',
    'point',
    'inches',
    'measured',
    'hundred',
    'oh',
    'stage',
    'hold',
    '',
  );
  fc.assert(
    fc.property(
      fc.oneof(
        fc.array(word, { maxLength: 9 }).map((words) => words.join(' ')),
        fc.string(),
      ),
      (words) => {
        const understood = book.understand(ALL, words);
        if (understood.kind === 'command')
          expect(book.understand(ALL, book.phraseFor(understood.command))).toEqual(understood);
        else expect(understood).toEqual({ kind: 'none' });
      },
    ),
    { numRuns: 500 },
  );
});

it('reading, linking and matching never throw, on a grammar of ours with characters changed, dropped or put in', () => {
  const source = fc.constantFrom(...SOURCES.map(({ text }) => text));
  const change = fc.tuple(fc.nat(), fc.constantFrom('change', 'drop', 'put', 'cut'), fc.constantFrom(...SIGNS, 'x'));
  fc.assert(
    fc.property(source, fc.array(change, { minLength: 1, maxLength: 4 }), (text, changes) => {
      let changed = text;
      for (const [at, kind, sign] of changes) {
        const place = at % (changed.length + 1);
        const after = kind === 'put' ? place : place + 1;
        changed =
          kind === 'cut'
            ? changed.slice(0, place)
            : changed.slice(0, place) + (kind === 'drop' ? '' : sign) + changed.slice(after);
      }
      const read = parseAbnf('commands.gram', changed);
      if (!read.ok) {
        const place = /^commands\.gram:(\d+):(\d+): .{10,}/s.exec(read.detail);
        expect(place).not.toBeNull();
        expect(Number(place?.[1])).toBeLessThanOrEqual(changed.split(/\r\n|\r|\n/).length);
        return;
      }
      const joined = linkGrammar(read.value, (address) => SOURCES.find(({ file }) => file === address)?.text ?? null);
      if (joined.ok)
        for (const rule of read.value.rules.slice(0, 5)) matchRule(joined.value, rule.name, ['one', 'stow']);
    }),
    { numRuns: 150 },
  );
});
