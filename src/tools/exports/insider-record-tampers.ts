/** Lies on a record, about the end of a pack and what is checked again, signed with the right key. */
import type { FactBody } from '../../domain/fact';
import { insider, lastOf, later, recordOf, recordsOf } from './change-facts';
import type { Tamper } from './tamper';

export const INSIDER_RECORD_TAMPERS: readonly Tamper[] = [
  insider(
    {
      name: 'other-name',
      done: 'The record names somebody else beside the signer’s certificate number.',
      finds: 'record',
    },
    recordOf((record) => ({ ...record, packers: record.packers.map((one) => ({ ...one, name: 'Nora Pell' })) })),
  ),
  insider(
    {
      name: 'other-certificate',
      done: 'The record gives the inspector of a hold a certificate number that is not on file.',
      finds: 'record',
    },
    recordOf((record) => ({
      ...record,
      holds: record.holds.map((one, at) => (at === 0 ? { ...one, certificate: 'QR-0000' } : one)),
    })),
  ),
  insider(
    {
      name: 'other-defect',
      done: 'A record makes a length that was too short by inches too short by a sixteenth.',
      finds: 'record',
    },
    recordsOf((record) => ({
      ...record,
      defects: record.defects.map((text) => text.replace(/[^,]* too short/, ' 1/16 in too short')),
    })),
  ),
  insider(
    {
      name: 'other-finder',
      done: 'A record names somebody else as the inspector who found a defect.',
      finds: 'record',
    },
    recordsOf((record) => ({
      ...record,
      defects: record.defects.map((text) => text.replace(/found by [^.]*/, 'found by Nora Pell')),
    })),
  ),
  insider(
    { name: 'no-notice', done: 'The last record no longer says that the kiosk does not certify.', finds: 'record' },
    recordOf((record) => ({ ...record, notice: 'Packed and certified.' })),
  ),
  insider(
    { name: 'closed-uncounted', done: 'The container was closed before the tools had been counted.', finds: 'tool' },
    lastOf('toolAccounted', () => null),
  ),
  insider(
    {
      name: 'final-hold-skipped',
      done: 'The last pack was closed without the release of its final hold.',
      finds: 'hold',
    },
    lastOf('holdReleased', () => null),
  ),
  insider(
    { name: 'reopened-hold', done: 'A stage was reopened, and its hold was not released again.', finds: 'hold' },
    (facts) => {
      const at = facts.findIndex(({ body }) => body.kind === 'reopened');
      const release = facts.findIndex(({ body }, index) => index > at && body.kind === 'holdReleased');
      if (at < 0 || release < 0) throw new Error('the story reopens a stage that has a hold');
      return facts.toSpliced(release, 1);
    },
  ),
  insider(
    { name: 'reopened-signed', done: 'A stage was reopened after the pack had been signed.', finds: 'order' },
    (facts) => {
      const at = facts.findLastIndex(({ body }) => body.kind === 'cardPlaced');
      const reopened = facts.find(({ body }) => body.kind === 'reopened');
      const card = facts[at];
      if (card === undefined || reopened === undefined) throw new Error('the story reopens and signs');
      return facts.toSpliced(at + 1, 0, { ...card, body: reopened.body });
    },
  ),
  insider(
    {
      name: 'changed-procedure',
      done: 'The procedure of the last pack was changed in the journal after it had been agreed.',
      finds: 'identity',
    },
    lastOf('procedureInForce', (fact, body) => {
      if (body.procedure === null) throw new Error('the last pack follows a procedure');
      return { ...fact, body: { ...body, procedure: { ...body.procedure, models: [...body.procedure.models, 'X'] } } };
    }),
  ),
  insider(
    {
      name: 'no-recheck',
      done: 'The last record was signed without checking again what had been checked at check-in.',
      finds: 'order',
    },
    lastOf('recheckPassed', () => null),
  ),
  insider(
    {
      name: 'revoked-meanwhile',
      done: 'An inspector was revoked before the signature, and it was signed all the same.',
      finds: 'who',
    },
    (facts) => {
      const people = facts.findLast(({ body }) => body.kind === 'peopleInForce');
      const at = facts.findLastIndex(({ body }) => body.kind === 'recheckPassed');
      const fact = facts[at];
      if (people?.body.kind !== 'peopleInForce' || fact === undefined)
        throw new Error('the story signs what was checked');
      const revoked = people.body.people.map((one) => (one.id === 'tomas-veller' ? { ...one, revoked: true } : one));
      const body: FactBody = { kind: 'peopleInForce', people: revoked };
      return facts.toSpliced(at, 0, { ...fact, seq: facts.length, body });
    },
  ),
  insider(
    { name: 'went-on', done: 'The checks failed when they were made again, and the work went on.', finds: 'order' },
    (facts) => {
      const at = facts.findLastIndex(({ body }) => body.kind === 'toolReturned');
      const fact = facts[at];
      if (fact === undefined) throw new Error('the story counts tools back');
      const checks = [{ label: 'Rigger', passed: false, detail: 'The qualification is revoked.' }];
      const body: FactBody = { kind: 'recheckFailed', occasion: 'filesChanged', checks };
      return facts.toSpliced(at, 0, { ...fact, seq: facts.length, by: null, body });
    },
  ),
  insider(
    {
      name: 'left-without-badge',
      done: 'A pack was handed over without the badge of whoever left, or of a lead.',
      finds: 'who',
    },
    lastOf('handedOver', (fact, { kind, from, to, sighting, reason, lookedBack }) => ({
      ...fact,
      body: { kind, from, to, sighting, reason, lookedBack },
    })),
  ),
  insider(
    {
      name: 'resumed-without-badge',
      done: 'After a break of half an hour the pack went on without a badge.',
      finds: 'who',
    },
    lastOf('resumed', (fact, { kind, packer }) => ({ ...fact, body: { kind, packer } })),
  ),
  insider(
    {
      name: 'clock-set-back',
      done: 'The last pack is dated two days back, and no jump of the clock is on record.',
      finds: 'time',
    },
    (facts) => {
      const { pack } = facts.at(-1) ?? { pack: '' };
      return facts.map((fact) => (fact.pack === pack ? { ...fact, at: later(fact.at, -2 * 86_400) } : fact));
    },
  ),
];
