/** Whatever bytes come, reading ends with a grammar or with a refusal that names a place; and writing can be read back. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { grammars, withoutPlaces } from './any-grammar';
import { makeAbnf } from './make-abnf';
import { parseAbnf } from '../../../../src/speech/grammar/srgs/parse-abnf';

const SIGNS = [...'$<>(){}[]|/;=!#~"\'*-., \n'];

function refusalHasPlace(text: string): void {
  const read = parseAbnf('x.gram', text);
  if (read.ok) return;
  const place = /^x\.gram:(\d+):(\d+): .{10,}/s.exec(read.detail);
  expect(place).not.toBeNull();
  expect(Number(place?.[1])).toBeLessThanOrEqual(text.split(/\r\n|\r|\n/).length);
}

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
