/** Lies about who did what and when, signed with the right key: only the rules of packing give them away. */
import type { FactBody } from '../../domain/fact';
import { textDigest } from '../../record/chain/text-digest';
import { inspectedBy, insider, lastOf, later } from './change-facts';
import type { Tamper } from './tamper';

export const INSIDER_WORK_TAMPERS: readonly Tamper[] = [
  insider(
    { name: 'own-inspector', done: 'The last hold is released by the rigger who packed.', finds: 'who' },
    inspectedBy('ines-calloway'),
  ),
  insider(
    { name: 'expired-inspector', done: 'The last hold is released by an inspector who had expired.', finds: 'who' },
    inspectedBy('bram-sedley'),
  ),
  insider(
    { name: 'other-model', done: 'The last hold is released by an inspector of another model.', finds: 'who' },
    inspectedBy('kester-lund'),
  ),
  insider(
    { name: 'no-scan', done: 'The last release stands without the scan of its inspector’s badge.', finds: 'hold' },
    lastOf('inspectorPresent', () => null),
  ),
  insider(
    { name: 'old-scan', done: 'The last release rests on a scan that had been used before.', finds: 'hold' },
    (facts) => {
      const used = facts.find(({ body }) => body.kind === 'inspectorPresent');
      const sighting = used?.body.kind === 'inspectorPresent' ? used.body.sighting : '';
      const seen = lastOf('inspectorPresent', (fact, body) => ({ ...fact, body: { ...body, sighting } }));
      const released = lastOf('holdReleased', (fact, body) => ({ ...fact, body: { ...body, sighting } }));
      return released(seen(facts));
    },
  ),
  insider(
    { name: 'late-verdict', done: 'The last verdict came ten minutes after the scan.', finds: 'hold' },
    (facts) => {
      const at = facts.findLastIndex(({ body }) => body.kind === 'holdReleased');
      return facts.map((fact, index) => (index >= at ? { ...fact, at: later(fact.at, 600) } : fact));
    },
  ),
  insider({ name: 'hold-skipped', done: 'A hold between two stages was never released.', finds: 'hold' }, (facts) => {
    const last = facts.findLast(({ body }) => body.kind === 'holdReleased');
    const earlier = lastOf('holdReleased', () => null);
    return last === undefined ? facts : [...earlier(facts.slice(0, last.seq)), ...facts.slice(last.seq)];
  }),
  insider(
    { name: 'tool-missing', done: 'One tool fewer came back, and the record says so to nobody.', finds: 'tool' },
    lastOf('toolReturned', (fact, body) => ({ ...fact, body: { ...body, count: body.count - 1 } })),
  ),
  insider(
    { name: 'item-left-in', done: 'A temporary item was never taken out.', finds: 'item' },
    lastOf('itemRemoved', () => null),
  ),
  insider(
    { name: 'wrong-length', done: 'A length outside its tolerance was passed off as within.', finds: 'measure' },
    lastOf('measured', (fact, body) => {
      const value = { ...body.expected, value: body.expected.value + 30 };
      return { ...fact, body: { ...body, value, deviation: 30, within: true } };
    }),
  ),
  insider(
    { name: 'stow-count', done: 'A stow that was not made is counted.', finds: 'stow' },
    lastOf('stowed', (fact, body) => ({ ...fact, body: { ...body, total: body.total + 1 } })),
  ),
  insider(
    { name: 'due-date', done: 'The last day of use on the signed record lies a year too late.', finds: 'record' },
    lastOf('signed', (fact, body) => {
      const year = Number(body.record.nextDue.slice(0, 4)) + 1;
      const record = { ...body.record, nextDue: `${year}${body.record.nextDue.slice(4)}` };
      return { ...fact, body: { ...body, record } };
    }),
  ),
  insider(
    { name: 'other-signer', done: 'The record is signed by somebody who did not pack.', finds: 'who' },
    lastOf('signed', (fact, body) => ({ ...fact, by: 'hazel-orrin', body: { ...body, packer: 'hazel-orrin' } })),
  ),
  insider(
    { name: 'backdated', done: 'A stage is dated a day earlier than what came before it.', finds: 'time' },
    lastOf('stageConfirmed', (fact) => ({ ...fact, at: later(fact.at, -86_400) })),
  ),
  insider(
    { name: 'beyond-life-passed', done: 'The container beyond its life passed its check-in.', finds: 'check-in' },
    (facts) => {
      const at = facts.findIndex(({ body }) => body.kind === 'checkInFailed');
      const fact = facts[at];
      if (fact?.body.kind !== 'checkInFailed') throw new Error('the story has a check-in that failed');
      const checks = fact.body.checks.map((line) => ({ ...line, passed: true }));
      return facts.with(at, { ...fact, body: { kind: 'checkInPassed', checks } });
    },
  ),
  insider(
    { name: 'not-inspected', done: 'Tools went out although one part had not been inspected.', finds: 'inspection' },
    lastOf('inspected', () => null),
  ),
  insider(
    { name: 'damp-packed', done: 'A part that was found damp was packed all the same.', finds: 'inspection' },
    lastOf('inspected', (fact, body) => ({
      ...fact,
      body: { ...body, result: 'finding', finding: 'Damp or not aired' },
    })),
  ),
  insider(
    { name: 'added-later', done: 'A stow was added after the record had been signed.', finds: 'ended' },
    (facts) => {
      const stow = facts.findLast(({ body }) => body.kind === 'stowed');
      const last = facts.at(-1);
      if (stow === undefined || last === undefined) throw new Error('the story has a stow');
      return [...facts, { ...stow, seq: facts.length, at: later(last.at, 60) }];
    },
  ),
  insider(
    { name: 'other-badge', done: 'The pack was opened with a badge that is not its packer’s.', finds: 'who' },
    lastOf('packOpened', (fact, body) => ({ ...fact, body: { ...body, badgeDigest: textDigest('QGR0CJ6STZCM8V2G') } })),
  ),
  insider(
    {
      name: 'other-canopy',
      done: 'Another canopy was identified than the one that belongs to the assembly.',
      finds: 'check-in',
    },
    lastOf('componentIdentified', (fact, body) => ({ ...fact, body: { ...body, serial: 'RSY-0000-000' } })),
  ),
  insider(
    { name: 'miscounted', done: 'A count that was not what the procedure asks for is taken as done.', finds: 'count' },
    lastOf('counted', (fact, body) => ({ ...fact, body: { ...body, count: body.count - 1 } })),
  ),
  insider(
    { name: 'wrong-correction', done: 'A correction takes back a fact that lay behind a check.', finds: 'correction' },
    lastOf('corrected', (fact, body) => ({ ...fact, body: { ...body, fact: body.fact - 5 } })),
  ),
  insider(
    {
      name: 'marks-disagree',
      done: 'A mark that contradicted the books was scanned, and the check-in passed all the same.',
      finds: 'check-in',
    },
    (facts) => {
      const at = facts.findLastIndex(({ body }) => body.kind === 'componentIdentified');
      const before = facts[at];
      if (before === undefined) throw new Error('the story identifies components');
      const body: FactBody = {
        kind: 'scanRefused',
        reason: 'marks-disagree',
        detail: 'This mark names two items.',
        payloadDigest: textDigest('RSY-7590-483'),
        where: 'identify',
      };
      return [...facts.slice(0, at), { ...before, seq: facts.length, by: null, body }, ...facts.slice(at)];
    },
  ),
];
