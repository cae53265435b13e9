/** Grammars by chance, for properties: everything that both forms of SRGS can say. */
import fc from 'fast-check';
import type { Expansion, Grammar } from '../../../../src/speech/grammar/srgs/srgs';

const name = fc
  .stringMatching(/^[A-Za-z_][A-Za-z0-9_]{0,6}$/)
  .filter((text) => !['NULL', 'VOID', 'GARBAGE'].includes(text));
const plainWord = fc.stringMatching(/^[A-Za-z0-9\u00e9\u4e00_.:-]{1,6}$/);
const language = fc.constantFrom('en', 'en-US', 'fr-CA');
const place = { line: 0, column: 0 };

const expansions = fc.letrec<{ any: Expansion; several: Expansion }>((tie) => ({
  any: fc.oneof(
    { maxDepth: 4 },
    plainWord.map((text): Expansion => ({ kind: 'token', words: [text], quoted: false })),
    fc
      .array(fc.stringMatching(/^[^\s"]{1,5}$/), { minLength: 1, maxLength: 3 })
      .map((words): Expansion => ({ kind: 'token', words, quoted: true })),
    fc
      .stringMatching(/^[a-z{}! ;=]{0,8}$/)
      .filter((text) => !text.includes('}!}') && !text.endsWith('}!') && !text.endsWith('}'))
      .map((content): Expansion => ({ kind: 'tag', content, place })),
    fc.constantFrom<Expansion>(
      { kind: 'special', name: 'NULL' },
      { kind: 'special', name: 'VOID' },
      { kind: 'special', name: 'GARBAGE' },
      { kind: 'sequence', items: [] },
    ),
    fc
      .record({
        uri: fc.constantFrom('b.gram', './c/d.gram', 'http://x.example/y'),
        rule: fc.option(name),
        mediaType: fc.constantFrom(null, 'application/srgs'),
      })
      .map((reference): Expansion => ({ kind: 'reference', ...reference, place })),
    tie('several'),
  ),
  several: fc.oneof(
    fc.array(tie('any'), { minLength: 2, maxLength: 4 }).map((items): Expansion => ({ kind: 'sequence', items })),
    fc
      .array(fc.record({ weight: fc.constantFrom(null, 0, 0.5, 10), expansion: tie('any') }), {
        minLength: 2,
        maxLength: 4,
      })
      .map((alternatives): Expansion => ({ kind: 'choice', alternatives })),
    fc
      .record({
        item: tie('any'),
        min: fc.nat({ max: 5 }),
        more: fc.option(fc.nat({ max: 5 })),
        probability: fc.constantFrom(null, 0, 0.25, 1),
      })
      .map(({ item, min, more, probability }): Expansion => ({
        kind: 'repeat',
        item,
        min,
        max: more === null ? null : min + more,
        probability,
      })),
    fc
      .record({
        language,
        item: tie('any').filter(
          (item) =>
            !['tag', 'special', 'reference'].includes(item.kind) &&
            !(item.kind === 'sequence' && item.items.length === 0),
        ),
      })
      .map((attached): Expansion => ({ kind: 'language', ...attached })),
  ),
}));

/** Whole grammars, whose root is the first rule. */
export const grammars = fc
  .record({
    expansions: fc.array(expansions.any, { minLength: 1, maxLength: 3 }),
    mode: fc.constant('voice' as const),
    encoding: fc.constantFrom(null, 'UTF-8'),
    tagFormat: fc.constantFrom(null, 'semantics/1.0'),
    base: fc.constantFrom(null, './x/', 'http://x.example/'),
    content: fc.constantFrom('plain', 'with "quotes"', "it's"),
  })
  .map(({ expansions: bodies, mode, encoding, tagFormat, base, content }): Grammar => ({
    file: 'x.gram',
    form: 'abnf',
    header: {
      encoding,
      language: 'en',
      mode,
      root: 'r0',
      tagFormat,
      base,
      lexicons: [{ uri: 'l', mediaType: null }],
      metas: [{ kind: 'meta', name: 'a', content }],
      tags: [{ content: 'x', place }],
    },
    rules: bodies.map((expansion, at) => ({
      name: `r${at}`,
      scope: at === 0 ? 'public' : 'private',
      expansion,
      place,
    })),
  }));

/** Places are where things stand in the text, which writing changes. */
export function withoutPlaces(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value, (key, item: unknown) => (key === 'place' ? null : item)));
}
