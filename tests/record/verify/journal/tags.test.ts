/** The verifier's own account of tags: nobody packs under one, and nobody takes one off who may not. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody } from '../../../../src/domain/fact';
import type { PersonInForce } from '../../../../src/domain/person';
import { checkStream, Tags } from '../../../../src/record/verify/journal/tags';

const person = (id: string, differing: Partial<PersonInForce> = {}): PersonInForce => ({
  id,
  certificate: `C-${id}`,
  roles: ['inspector'],
  models: ['Sprat'],
  holdClasses: [],
  validFrom: '2026-01-01',
  validTo: '2026-12-31',
  revoked: false,
  badges: [],
  ...differing,
});
const PEOPLE = [person('ada'), person('ines'), person('ben', { roles: ['rigger'] }), person('otto', { revoked: true })];

const OPENED: FactBody = { kind: 'packOpened', packer: 'ada', table: 't' };
const PART: FactBody = { kind: 'componentIdentified', component: 'canopy', serial: 'S-1', reader: 'camera' };
const STOP: FactBody = { kind: 'stopped', reason: 'Torn', cause: 'damage', component: 'canopy' };
const CHECKED: FactBody = { kind: 'checkInPassed', checks: [] };
const clear = (inspector: string, differing: Partial<Extract<FactBody, { kind: 'tagCleared' }>> = {}): FactBody => ({
  kind: 'tagCleared',
  tag: 2,
  component: 'canopy',
  serial: 'S-1',
  inspector,
  sighting: 's-1',
  finding: 'Repaired',
  channel: 'voice',
  ...differing,
});

type Step = readonly [pack: string, body: FactBody];
const STOPPED: readonly Step[] = [
  ['p1', OPENED],
  ['p1', PART],
  ['p1', STOP],
];
const KNOWN: Step = ['loft', { kind: 'peopleInForce', people: PEOPLE }];
const AGAIN: readonly Step[] = [
  ['p2', { ...OPENED, packer: 'ben' }],
  ['p2', PART],
  ['p2', CHECKED],
];

function found(steps: readonly Step[]): readonly string[] {
  const tags = new Tags();
  const notes: string[] = [];
  const note = (what: string, detail: string): void => void notes.push(`${what}: ${detail}`);
  steps.forEach(([pack, body], seq) => {
    const by = 'inspector' in body ? body.inspector : null;
    const fact: Fact = { seq, pack, at: '2026-11-25T10:00:00.000Z', by, body };
    tags.take(fact, { note, doubt: note });
    if (pack === 'loft') checkStream(fact, note);
  });
  return notes;
}

describe('tags over a journal', () => {
  it('are sound where one was taken off by an inspector before the part was checked in again', () => {
    expect(found([...STOPPED, KNOWN, ['loft', clear('ines')], ...AGAIN])).toEqual([]);
  });

  it.each<[string, readonly Step[], string]>([
    ['a part checked in under its tag', [...STOPPED, ...AGAIN], 'tag: The canopy S-1 was checked in with a tag on it.'],
    ['taken off by who packed', [...STOPPED, KNOWN, ['loft', clear('ada')]], 'who: Fact 4: ada packed'],
    ['taken off by no inspector', [...STOPPED, KNOWN, ['loft', clear('ben')]], 'who: Fact 4: ben is no inspector'],
    ['taken off by one who is revoked', [...STOPPED, KNOWN, ['loft', clear('otto')]], 'who: Fact 4: otto is revoked'],
    ['taken off by nobody known', [...STOPPED, ['loft', clear('ines')]], 'who: Fact 3: ines is not in the people file'],
    ['a tag that never hung', [KNOWN, ['loft', clear('ines')]], 'tag: Fact 1 takes off a tag that did not hang there.'],
    [
      'without a finding',
      [...STOPPED, KNOWN, ['loft', clear('ines', { finding: ' ' })]],
      'tag: Fact 4 takes off a tag',
    ],
    ['called another part', [...STOPPED, KNOWN, ['loft', clear('ines', { component: 'bag' })]], 'tag: Fact 4 calls'],
    ['inside a pack', [...STOPPED, KNOWN, ['p2', clear('ines')]], 'tag: Fact 4 takes off a tag in the middle'],
    ['work in the stream of no pack', [['loft', CHECKED]], 'foreign: Fact 0 belongs into a pack.'],
  ])('%s', (_name, steps, wrong) => {
    expect(found(steps).some((line) => line.startsWith(wrong))).toBe(true);
  });

  it('by a scan that was used already', () => {
    const used: Step = ['p1', { kind: 'inspectorPresent', hold: 'h', inspector: 'ines', sighting: 's-1' }];
    const steps: readonly Step[] = [['p1', OPENED], ['p1', PART], used, ['p1', STOP], KNOWN];
    expect(found([...steps, ['loft', clear('ines', { tag: 3 })]])).toEqual([
      'tag: Fact 5 rests on a scan that had been used already.',
    ]);
  });
});
