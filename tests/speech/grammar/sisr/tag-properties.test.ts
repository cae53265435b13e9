/** Whatever a tag says, reading and running it ends, and what it means can be written as JSON. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseTag } from '../../../../src/speech/grammar/sisr/parse-tag';
import { meaningOf } from '../../../../src/speech/grammar/sisr/run-tag';

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
