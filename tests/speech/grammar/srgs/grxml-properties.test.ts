/** The two forms of SRGS say the same; and whatever text comes, reading XML ends with a grammar or a refusal with a place. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { parseAbnf } from '../../../../src/speech/grammar/srgs/parse-abnf';
import { parseGrxml } from '../../../../src/speech/grammar/srgs/parse-grxml';
import { grammars, withoutPlaces } from './any-grammar';
import { makeAbnf } from './make-abnf';
import { makeGrxml } from './make-grxml';

it('the same grammar in both forms gives equal nodes (SRGS 1.3)', () => {
  fc.assert(
    fc.property(grammars, (made) => {
      const [abnf, xml] = [makeAbnf(made), makeGrxml(made)];
      const [fromAbnf, fromXml] = [parseAbnf('x', abnf), parseGrxml('x', xml)];
      expect(fromXml.ok ? withoutPlaces({ ...fromXml.value, form: 'abnf' }) : `${fromXml.detail}\n${xml}`).toEqual(
        fromAbnf.ok ? withoutPlaces(fromAbnf.value) : `${fromAbnf.detail}\n${abnf}`,
      );
    }),
    { numRuns: 500 },
  );
});

const SIGNS = [
  ...'<>&;"\'=/!?-[]# \n',
  'a',
  '<item>',
  '</item>',
  '&amp;',
  ' repeat="',
  '<!--',
  '<![CDATA[',
  '<one-of>',
];

it('reading never throws, on a sound grammar with characters changed, dropped or put in', () => {
  const change = fc.tuple(fc.nat(), fc.constantFrom(0, 1, 9), fc.constantFrom('', ...SIGNS));
  fc.assert(
    fc.property(grammars, fc.array(change, { minLength: 1, maxLength: 4 }), (made, changes) => {
      let text = makeGrxml(made);
      for (const [where, dropped, put] of changes) {
        const at = where % (text.length + 1);
        text = text.slice(0, at) + put + text.slice(at + dropped);
      }
      const read = parseGrxml('x.grxml', text);
      if (read.ok) return;
      const place = /^x\.grxml:(\d+):(\d+): .{10,}/s.exec(read.detail);
      expect(place, read.detail).not.toBeNull();
      expect(Number(place?.[1])).toBeLessThanOrEqual(text.split(/\r\n|\r|\n/).length);
    }),
    { numRuns: 500 },
  );
});
