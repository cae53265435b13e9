/** The bounds of a stored fact: what just fits is recorded, and what is one more is refused, so that no file grows without end. */
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { FactBody, FactDraft } from '../../../src/domain/fact';
import { makeFactBytes, MAX_FACT_BYTES, parseFactBytes, sealFact } from '../../../src/record/chain/fact-bytes';
import { countDraft, draftOf, SAMPLE_BODIES } from '../../fakes/ledger-facts';

const DAY = '2026-11-25';
const many = (count: number, one: unknown): unknown[] => Array.from({ length: count }, () => one);
const letters = (count: number): string => 'x'.repeat(count);

/** The same value with what stands at the path put in, or left out where it is undefined. */
function changed(value: unknown, path: readonly (string | number)[], to: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return to;
  if (Array.isArray(value)) return value.map((item, at) => (at === key ? changed(item, rest, to) : (item as unknown)));
  if (typeof value !== 'object' || value === null) throw new Error(`nothing has ${key}`);
  const members = { ...(value as Record<string, unknown>), [key]: changed((value as never)[key], rest, to) };
  return Object.fromEntries(Object.entries(members).filter(([, member]) => member !== undefined));
}

type Path = readonly (string | number)[];
const BODIES = SAMPLE_BODIES;
const people = ['people', 0] as const;
const stages = BODIES.procedureInForce.procedure?.stages ?? [];
const stageOf = (kind: string): unknown => stages.find((stage) => stage.kind === kind);
const fits = (body: FactBody, path: Path, value: unknown): boolean =>
  sealFact(draftOf('pack-1', changed(body, path, value) as FactBody), 0).ok;

describe('what just fits and what is one more', () => {
  it.each<[string, FactBody, Path, unknown, unknown]>([
    ['a name that must be there', BODIES.stowed, ['stage'], 'x', ''],
    ['a name', BODIES.stowed, ['stage'], letters(200), letters(201)],
    ['a line of text', BODIES.stopped, ['reason'], letters(2_000), letters(2_001)],
    ['a payload', BODIES.scanRefused, ['payload'], letters(8_000), letters(8_001)],
    ['a count', BODIES.counted, ['count'], 1_000_000, 1_000_001],
    ['a count of none', BODIES.counted, ['count'], 0, -1],
    ['a whole count', BODIES.counted, ['count'], 2, 2.5],
    ['a measured value', BODIES.measured, ['deviation'], 1e9, 1e9 + 1],
    ['a measured value below nought', BODIES.measured, ['deviation'], -1e9, -1e9 - 1],
    ['a unit', BODIES.measured, ['value', 'unit'], 'mm', 'yd'],
    ['the number of a corrected fact', BODIES.corrected, ['fact'], 0, -1],
    ['a whole number of a corrected fact', BODIES.corrected, ['fact'], 1, 1.5],
    ['the seconds for a verdict', BODIES.procedureInForce, ['verdictSeconds'], 86_400, 86_401],
    ['no seconds for a verdict', BODIES.procedureInForce, ['verdictSeconds'], 0, -1],
    ['a policy for PINs', BODIES.procedureInForce, ['pin'], 'eachHold', 'sometimes'],
    ['a PIN that was given', BODIES.inspectorPresent, ['pin'], true, false],
    [
      'a list of people',
      BODIES.peopleInForce,
      ['people'],
      many(1_000, BODIES.peopleInForce.people[0]),
      many(1_001, BODIES.peopleInForce.people[0]),
    ],
    ['a person’s badges', BODIES.peopleInForce, [...people, 'badges'], many(50, letters(64)), many(51, letters(64))],
    ['the digest of a badge', BODIES.peopleInForce, [...people, 'badges'], [letters(64)], [letters(63)]],
    ['the digest of a badge, cut', BODIES.peopleInForce, [...people, 'badges'], [letters(64)], [letters(65)]],
    ['the digest of a name', BODIES.peopleInForce, [...people, 'nameDigest'], letters(64), letters(63)],
    ['a person’s roles', BODIES.peopleInForce, [...people, 'roles'], many(20, 'rigger'), many(21, 'rigger')],
    ['a role', BODIES.peopleInForce, [...people, 'roles'], ['lead'], ['leader']],
    ['a person’s models', BODIES.peopleInForce, [...people, 'models'], many(1_000, ''), many(1_001, '')],
    ['classes of hold', BODIES.peopleInForce, [...people, 'holdClasses'], many(20, 'final'), many(21, 'final')],
    ['a class of hold', BODIES.peopleInForce, [...people, 'holdClasses'], ['closing'], ['close']],
    ['no certificate', BODIES.peopleInForce, [...people, 'certificate'], null, undefined],
    ['a day', BODIES.peopleInForce, [...people, 'validTo'], '2028-02-29', '2027-02-29'],
    ['an assembly’s components', BODIES.procedureInForce, ['assembly', 'components'], [], many(1, {})],
    [
      'a hundred components',
      BODIES.procedureInForce,
      ['assembly', 'components'],
      many(100, BODIES.procedureInForce.assembly.components[0]),
      many(101, BODIES.procedureInForce.assembly.components[0]),
    ],
    ['tools', BODIES.procedureInForce, ['procedure', 'tools'], [], many(1, { id: '', name: '', count: 1 })],
    [
      '200 tools',
      BODIES.procedureInForce,
      ['procedure', 'tools'],
      many(200, { id: 't', name: '', count: 1 }),
      many(201, { id: 't', name: '', count: 1 }),
    ],
    [
      '200 temporary items',
      BODIES.procedureInForce,
      ['procedure', 'temporaryItems'],
      many(200, { id: 't', name: '' }),
      many(201, { id: 't', name: '' }),
    ],
    [
      'a hundred kinds of component',
      BODIES.procedureInForce,
      ['procedure', 'components'],
      many(100, { kind: 'bag', models: [] }),
      many(101, { kind: 'bag', models: [] }),
    ],
    [
      '500 stages',
      BODIES.procedureInForce,
      ['procedure', 'stages'],
      many(500, stageOf('confirm')),
      many(501, stageOf('confirm')),
    ],
    ['an interval in days', BODIES.procedureInForce, ['rule', 'interval'], { days: 180 }, { days: 180, months: 6 }],
    ['an interval in months', BODIES.procedureInForce, ['rule', 'interval'], { months: 6 }, {}],
    ['a boundary', BODIES.procedureInForce, ['rule', 'boundary'], 'exclusive', 'both'],
    ['no rule', BODIES.procedureInForce, ['rule'], null, undefined],
    ['no procedure', BODIES.procedureInForce, ['procedure'], null, undefined],
    ['an item of no stage', BODIES.itemPlaced, ['stage'], null, undefined],
    ['a removed item of no stage', BODIES.itemRemoved, ['stage'], null, undefined],
  ])('%s', (...[, body, path, most, more]) => {
    expect(fits(body, path, most)).toBe(true);
    expect(fits(body, path, more)).toBe(false);
  });

  it('stages of a kind that nobody knows, and a stage that is half of another', () => {
    for (const kind of ['confirm', 'count', 'stow', 'measure', 'place', 'remove']) {
      const stage = stageOf(kind);
      if (stage === undefined) throw new Error(`the sample procedure has no ${kind}`);
      const path = ['procedure', 'stages'];
      expect(fits(BODIES.procedureInForce, path, [stage])).toBe(true);
      expect(fits(BODIES.procedureInForce, path, [changed(stage, ['kind'], 'fold')])).toBe(false);
      expect(fits(BODIES.procedureInForce, path, [changed(stage, ['more'], 1)])).toBe(false);
    }
  });

  it('who acted: a name, or nobody', () => {
    const draft = (by: string | null): FactDraft => ({ ...countDraft('pack-1', 1), by });
    expect(sealFact(draft(null), 0).ok).toBe(true);
    expect(sealFact(draft(''), 0).ok).toBe(false);
    expect(sealFact(draft(letters(201)), 0).ok).toBe(false);
    expect(sealFact(countDraft('pack-1', 1), -1).ok).toBe(false);
    expect(sealFact(countDraft('pack-1', 1), 0.5).ok).toBe(false);
  });
});

it('schemas make no code from text, which the page’s policy forbids', () => {
  expect(z.config().jitless).toBe(true);
});

describe('a time', () => {
  const at = (time: string): boolean => sealFact({ ...countDraft('pack-1', 1), at: time }, 0).ok;
  it.each([
    `${DAY}T14:03:11Z`,
    `${DAY}T14:03:11+01:00`,
    `${DAY}T14:03:11-11:30`,
    `${DAY}T14:03:11.5Z`,
    `${DAY}T14:03:11.123456789Z`,
    // RFC 3339 section 5.8: an example with an offset of twenty minutes, and one two minutes before a new year.
    '1937-01-01T12:00:27.87+00:20',
    '1996-12-19T16:39:57-08:00',
  ])('%s is one', (time) => {
    expect(at(time)).toBe(true);
  });

  it.each([
    ['a day alone', DAY],
    ['no seconds', `${DAY}T14:03Z`],
    ['no offset', `${DAY}T14:03:11`],
    ['a blank for the T', `${DAY} 14:03:11Z`],
    ['words before it', `at ${DAY}T14:03:11Z`],
    ['words behind it', `${DAY}T14:03:11Z or so`],
    // A host reads this one as a time (ECMAScript, expanded years); the record does not.
    ['a year with a sign and six figures', `+002026-11-25T14:03:11Z`],
    ['a remark behind it', `${DAY}T14:03:11Z (noon)`],
    ['a point without figures', `${DAY}T14:03:11.Z`],
    ['ten figures behind the point', `${DAY}T14:03:11.1234567890Z`],
    ['a year of five figures', `12026-11-25T14:03:11Z`],
    ['a month of one figure', `2026-1-25T14:03:11Z`],
    ['a day of one figure', `2026-11-5T14:03:11Z`],
    ['an hour of one figure', `${DAY}T4:03:11Z`],
    ['a minute of one figure', `${DAY}T14:3:11Z`],
    ['a second of one figure', `${DAY}T14:03:1Z`],
    ['an offset of one figure', `${DAY}T14:03:11+1:00`],
    ['an offset without minutes', `${DAY}T14:03:11+01`],
    ['an offset without a colon', `${DAY}T14:03:11+0100`],
    ['letters for figures', `${DAY}Thh:mm:ssZ`],
    ['a month that is none', `2026-13-25T14:03:11Z`],
    ['an hour that is none', `${DAY}T25:03:11Z`],
  ])('%s is none', (_, time) => {
    expect(at(time)).toBe(false);
  });
});

describe('bytes that are no fact say what is wrong', () => {
  const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
  const made = makeFactBytes({ seq: 3, ...countDraft('pack-1', 24) });
  const text = made.ok ? new TextDecoder().decode(made.value) : '';
  it.each<[string, Uint8Array, string]>([
    ['a byte too many', new Uint8Array(MAX_FACT_BYTES + 1), 'it has more than 4194304 bytes'],
    ['as many as there may be, of zeros', new Uint8Array(MAX_FACT_BYTES), 'it is not JSON'],
    ['no UTF-8', Uint8Array.of(0x80), 'it is not UTF-8 text'],
    ['no JSON', bytes('{'), 'it is not JSON'],
    ['another version', bytes(text.replace('"v":1', '"v":2')), 'a newer version of the kiosk wrote it'],
    [
      'a kind of our own',
      bytes(text.replace('"counted"', `"${letters(50)}"`)),
      `its kind "${letters(40)}" is not known`,
    ],
    ['a field of the fact', bytes(text.replace('"seq":3', '"seq":-3')), 'seq: Too small'],
    ['a field of its body', bytes(text.replace('"lines"', '"fishes"')), 'body.noun: Invalid option'],
    ['a list', bytes('[]'), 'it: Invalid input'],
    ['a time', bytes(text.replace('T14', 'T44')), 'at: not a date and time with offset'],
    ['other spelling', bytes(`${text} `), 'it is not in the canonical form of RFC 8785'],
  ])('%s', (_, found, why) => {
    const read = parseFactBytes(found);
    expect(read.ok ? '' : read.detail).toContain(`The record cannot be read: ${why}`);
    expect(read.ok ? '' : read.detail).toMatch(/\. Leave it as it is and verify the journal from an export\.$/);
  });

  it('and a draft says so too', () => {
    const unfit = sealFact(draftOf('', BODIES.stoodBy), 0);
    expect(unfit.ok ? '' : unfit.detail).toContain('This fact cannot be recorded. The record cannot be read: pack: ');
    const unwritable = sealFact(draftOf('p', { ...BODIES.measured, deviation: Number.NaN }), 0);
    expect(unwritable.ok ? '' : unwritable.detail).toContain('This fact cannot be recorded. A number is not finite');
  });
});
