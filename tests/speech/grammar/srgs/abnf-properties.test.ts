/** Whatever bytes come, reading ends with a grammar or with a refusal that names a place; and writing can be read back. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { grammars, withoutPlaces } from './any-grammar';
import { makeAbnf } from './make-abnf';
import { parseAbnf } from '../../../../src/speech/grammar/srgs/parse-abnf';
import { linkGrammar } from '../../../../src/speech/grammar/srgs/link';
import { matchRule } from '../match/match-rule';
import { parseTag } from '../../../../src/speech/grammar/sisr/parse-tag';
import { meaningOf } from '../../../../src/speech/grammar/sisr/run-tag';
import { ALL, phraseBook, SOURCES } from '../../../voice/phrases/book';

const SIGNS = [...'$<>(){}[]|/;=!#~"\'*-., \n'];

function refusalHasPlace(text: string): void {
  const read = parseAbnf('x.gram', text);
  if (read.ok) return;
  const place = /^x\.gram:(\d+):(\d+): .{10,}/s.exec(read.detail);
  expect(place).not.toBeNull();
  expect(Number(place?.[1])).toBeLessThanOrEqual(text.split(/\r\n|\r|\n/).length);
}

describe('tags never throw, when read or when run', () => {
  const part = fc.constantFrom(
    'out',
    '.x',
    ' = ',
    '1',
    '"a"',
    '{',
    '}',
    '(',
    ')',
    '[',
    ']',
    '+',
    '*',
    '/',
    ';',
    'rules',
    '.latest()',
    'meta',
    ' new Array',
    '?',
    ':',
    ',',
    '!',
    "'",
    '__proto__',
    'out.push',
  );
  it('on any text', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ maxLength: 40 }),
          fc.array(part, { maxLength: 12 }).map((parts) => parts.join('')),
        ),
        (text) => {
          const action = parseTag('semantics/1.0', text);
          expect(['script', 'broken']).toContain(action.kind);
          const meaning = meaningOf([{ kind: 'tag', content: text, action }], 'words');
          // Whatever it means can be written down: no holes, no rings, no numbers that are none.
          if (meaning.ok) expect(JSON.parse(JSON.stringify(meaning.value))).toEqual(meaning.value);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

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

describe('reading never throws', () => {
  it('on any text', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 200 }), refusalHasPlace), { numRuns: 300 });
  });

  it('on any text after a sound header', () => {
    const rest = fc.string({ unit: fc.constantFrom(...SIGNS, 'a', '1', '$r', 'public '), maxLength: 60 });
    fc.assert(
      fc.property(rest, (text) => refusalHasPlace(`#ABNF 1.0;\nlanguage en;\n${text}`)),
      { numRuns: 1000 },
    );
  });

  it('on a grammar of ours with characters changed, dropped or put in, nor does linking and matching', () => {
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
        refusalHasPlace(changed);
        const read = parseAbnf('commands.gram', changed);
        if (!read.ok) return;
        const joined = linkGrammar(read.value, (address) => SOURCES.find(({ file }) => file === address)?.text ?? null);
        if (joined.ok)
          for (const rule of read.value.rules.slice(0, 5)) matchRule(joined.value, rule.name, ['one', 'stow']);
      }),
      { numRuns: 150 },
    );
  });
});

it('what is written is read back the same: parse(make(x)) = x', () => {
  fc.assert(
    fc.property(grammars, (made) => {
      const text = makeAbnf(made);
      const read = parseAbnf('x.gram', text);
      expect(read.ok ? withoutPlaces(read.value) : `${read.detail}\n${text}`).toEqual(withoutPlaces(made));
    }),
    { numRuns: 500 },
  );
});
