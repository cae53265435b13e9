/** Lies that are signed with the right key: only what was done, by whom and when, gives them away. */
import type { Fact, FactBody } from '../../domain/fact';
import { textDigest } from '../../record/chain/text-digest';
import { remakeText } from './remake';
import type { Tamper } from './tamper';

type Change = (facts: readonly Fact[]) => readonly Fact[];

function insider(name: string, done: string, finds: Tamper['finds'], change: Change): Tamper {
  const make: Tamper['make'] = ({ file, signer }) => remakeText(change(file.facts.map(({ fact }) => fact)), signer);
  return { name, done, finds, make };
}

type BodyOf<K extends FactBody['kind']> = Extract<FactBody, { kind: K }>;

/** Changes the last fact of this kind. */
function lastOf<K extends FactBody['kind']>(kind: K, change: (fact: Fact, body: BodyOf<K>) => Fact | null): Change {
  return (facts) => {
    const at = facts.findLastIndex(({ body }) => body.kind === kind);
    const fact = facts[at];
    if (fact === undefined) throw new Error(`the story has no ${kind}`);
    const changed = change(fact, fact.body as BodyOf<K>);
    return changed === null ? facts.toSpliced(at, 1) : facts.with(at, changed);
  };
}

/** Lets somebody else have been the inspector of the last hold, scan and all. */
function inspectedBy(inspector: string): Change {
  return (facts) => {
    const seen = lastOf('inspectorPresent', (fact, body) => ({ ...fact, by: inspector, body: { ...body, inspector } }));
    const released = lastOf('holdReleased', (fact, body) => ({ ...fact, by: inspector, body: { ...body, inspector } }));
    return released(seen(facts));
  };
}

const later = (at: string, seconds: number): string => new Date(Date.parse(at) + seconds * 1000).toISOString();

/** Changes the last record. */
function recordOf(change: (record: BodyOf<'signed'>['record']) => BodyOf<'signed'>['record']): Change {
  return lastOf('signed', (fact, body) => ({ ...fact, body: { ...body, record: change(body.record) } }));
}

/** Changes every record. */
function recordsOf(change: (record: BodyOf<'signed'>['record']) => BodyOf<'signed'>['record']): Change {
  return (facts) =>
    facts.map((fact) =>
      fact.body.kind === 'signed' ? { ...fact, body: { ...fact.body, record: change(fact.body.record) } } : fact,
    );
}

export const INSIDER_TAMPERS: readonly Tamper[] = [
  insider('own-inspector', 'The last hold is released by the rigger who packed.', 'who', inspectedBy('ines-calloway')),
  insider(
    'expired-inspector',
    'The last hold is released by an inspector who had expired.',
    'who',
    inspectedBy('bram-sedley'),
  ),
  insider(
    'other-model',
    'The last hold is released by an inspector of another model.',
    'who',
    inspectedBy('kester-lund'),
  ),
  insider(
    'no-scan',
    'The last release stands without the scan of its inspector’s badge.',
    'hold',
    lastOf('inspectorPresent', () => null),
  ),
  insider('old-scan', 'The last release rests on a scan that had been used before.', 'hold', (facts) => {
    const used = facts.find(({ body }) => body.kind === 'inspectorPresent');
    const sighting = used?.body.kind === 'inspectorPresent' ? used.body.sighting : '';
    const seen = lastOf('inspectorPresent', (fact, body) => ({ ...fact, body: { ...body, sighting } }));
    const released = lastOf('holdReleased', (fact, body) => ({ ...fact, body: { ...body, sighting } }));
    return released(seen(facts));
  }),
  insider('late-verdict', 'The last verdict came ten minutes after the scan.', 'hold', (facts) => {
    const at = facts.findLastIndex(({ body }) => body.kind === 'holdReleased');
    return facts.map((fact, index) => (index >= at ? { ...fact, at: later(fact.at, 600) } : fact));
  }),
  insider('hold-skipped', 'A hold between two stages was never released.', 'hold', (facts) => {
    const last = facts.findLast(({ body }) => body.kind === 'holdReleased');
    const earlier = lastOf('holdReleased', () => null);
    return last === undefined ? facts : [...earlier(facts.slice(0, last.seq)), ...facts.slice(last.seq)];
  }),
  insider(
    'tool-missing',
    'One tool fewer came back, and the record says so to nobody.',
    'tool',
    lastOf('toolReturned', (fact, body) => ({ ...fact, body: { ...body, count: body.count - 1 } })),
  ),
  insider(
    'item-left-in',
    'A temporary item was never taken out.',
    'item',
    lastOf('itemRemoved', () => null),
  ),
  insider(
    'wrong-length',
    'A length outside its tolerance was passed off as within.',
    'measure',
    lastOf('measured', (fact, body) => {
      const value = { ...body.expected, value: body.expected.value + 30 };
      return { ...fact, body: { ...body, value, deviation: 30, within: true } };
    }),
  ),
  insider(
    'stow-count',
    'A stow that was not made is counted.',
    'stow',
    lastOf('stowed', (fact, body) => ({ ...fact, body: { ...body, total: body.total + 1 } })),
  ),
  insider(
    'due-date',
    'The last day of use on the signed record lies a year too late.',
    'record',
    lastOf('signed', (fact, body) => {
      const year = Number(body.record.nextDue.slice(0, 4)) + 1;
      const record = { ...body.record, nextDue: `${year}${body.record.nextDue.slice(4)}` };
      return { ...fact, body: { ...body, record } };
    }),
  ),
  insider(
    'other-signer',
    'The record is signed by somebody who did not pack.',
    'who',
    lastOf('signed', (fact, body) => ({ ...fact, by: 'hazel-orrin', body: { ...body, packer: 'hazel-orrin' } })),
  ),
  insider(
    'backdated',
    'A stage is dated a day earlier than what came before it.',
    'time',
    lastOf('stageConfirmed', (fact) => ({ ...fact, at: later(fact.at, -86_400) })),
  ),
  insider('beyond-life-passed', 'The container beyond its life passed its check-in.', 'check-in', (facts) => {
    const at = facts.findIndex(({ body }) => body.kind === 'checkInFailed');
    const fact = facts[at];
    if (fact?.body.kind !== 'checkInFailed') throw new Error('the story has a check-in that failed');
    const checks = fact.body.checks.map((line) => ({ ...line, passed: true }));
    return facts.with(at, { ...fact, body: { kind: 'checkInPassed', checks } });
  }),
  insider(
    'not-inspected',
    'Tools went out although one part had not been inspected.',
    'inspection',
    lastOf('inspected', () => null),
  ),
  insider(
    'damp-packed',
    'A part that was found damp was packed all the same.',
    'inspection',
    lastOf('inspected', (fact, body) => ({
      ...fact,
      body: { ...body, result: 'finding', finding: 'Damp or not aired' },
    })),
  ),
  insider('added-later', 'A stow was added after the record had been signed.', 'ended', (facts) => {
    const stow = facts.findLast(({ body }) => body.kind === 'stowed');
    const last = facts.at(-1);
    if (stow === undefined || last === undefined) throw new Error('the story has a stow');
    return [...facts, { ...stow, seq: facts.length, at: later(last.at, 60) }];
  }),
  insider(
    'other-badge',
    'The pack was opened with a badge that is not its packer’s.',
    'who',
    lastOf('packOpened', (fact, body) => ({ ...fact, body: { ...body, badgeDigest: textDigest('QGR0CJ6STZCM8V2G') } })),
  ),
  insider(
    'other-canopy',
    'Another canopy was identified than the one that belongs to the assembly.',
    'check-in',
    lastOf('componentIdentified', (fact, body) => ({ ...fact, body: { ...body, serial: 'RSY-0000-000' } })),
  ),
  insider(
    'miscounted',
    'A count that was not what the procedure asks for is taken as done.',
    'count',
    lastOf('counted', (fact, body) => ({ ...fact, body: { ...body, count: body.count - 1 } })),
  ),
  insider(
    'wrong-correction',
    'A correction takes back a fact that lay behind a check.',
    'correction',
    lastOf('corrected', (fact, body) => ({ ...fact, body: { ...body, fact: body.fact - 5 } })),
  ),
  insider(
    'marks-disagree',
    'A mark that contradicted the books was scanned, and the check-in passed all the same.',
    'check-in',
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
  insider(
    'other-name',
    'The record names somebody else beside the signer’s certificate number.',
    'record',
    recordOf((record) => ({ ...record, packers: record.packers.map((one) => ({ ...one, name: 'Nora Pell' })) })),
  ),
  insider(
    'other-certificate',
    'The record gives the inspector of a hold a certificate number that is not on file.',
    'record',
    recordOf((record) => ({
      ...record,
      holds: record.holds.map((one, at) => (at === 0 ? { ...one, certificate: 'QR-0000' } : one)),
    })),
  ),
  insider(
    'other-defect',
    'A record makes a length that was too short by inches too short by a sixteenth.',
    'record',
    recordsOf((record) => ({
      ...record,
      defects: record.defects.map((text) => text.replace(/[^,]* too short/, ' 1/16 in too short')),
    })),
  ),
  insider(
    'other-finder',
    'A record names somebody else as the inspector who found a defect.',
    'record',
    recordsOf((record) => ({
      ...record,
      defects: record.defects.map((text) => text.replace(/found by [^.]*/, 'found by Nora Pell')),
    })),
  ),
  insider(
    'no-notice',
    'The last record no longer says that the kiosk does not certify.',
    'record',
    recordOf((record) => ({ ...record, notice: 'Packed and certified.' })),
  ),
  insider(
    'closed-uncounted',
    'The container was closed before the tools had been counted.',
    'tool',
    lastOf('toolAccounted', () => null),
  ),
  insider(
    'final-hold-skipped',
    'The last pack was closed without the release of its final hold.',
    'hold',
    lastOf('holdReleased', () => null),
  ),
  insider('reopened-hold', 'A stage was reopened, and its hold was not released again.', 'hold', (facts) => {
    const at = facts.findIndex(({ body }) => body.kind === 'reopened');
    const release = facts.findIndex(({ body }, index) => index > at && body.kind === 'holdReleased');
    if (at < 0 || release < 0) throw new Error('the story reopens a stage that has a hold');
    return facts.toSpliced(release, 1);
  }),
  insider('reopened-signed', 'A stage was reopened after the pack had been signed.', 'order', (facts) => {
    const at = facts.findLastIndex(({ body }) => body.kind === 'cardPlaced');
    const reopened = facts.find(({ body }) => body.kind === 'reopened');
    const card = facts[at];
    if (card === undefined || reopened === undefined) throw new Error('the story reopens and signs');
    return facts.toSpliced(at + 1, 0, { ...card, body: reopened.body });
  }),
  insider(
    'changed-procedure',
    'The procedure of the last pack was changed in the journal after it had been agreed.',
    'identity',
    lastOf('procedureInForce', (fact, body) => {
      if (body.procedure === null) throw new Error('the last pack follows a procedure');
      return { ...fact, body: { ...body, procedure: { ...body.procedure, models: [...body.procedure.models, 'X'] } } };
    }),
  ),
  insider(
    'no-recheck',
    'The last record was signed without checking again what had been checked at check-in.',
    'order',
    lastOf('recheckPassed', () => null),
  ),
  insider(
    'revoked-meanwhile',
    'An inspector was revoked before the signature, and it was signed all the same.',
    'who',
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
  insider('went-on', 'The checks failed when they were made again, and the work went on.', 'order', (facts) => {
    const at = facts.findLastIndex(({ body }) => body.kind === 'toolReturned');
    const fact = facts[at];
    if (fact === undefined) throw new Error('the story counts tools back');
    const checks = [{ label: 'Rigger', passed: false, detail: 'The qualification is revoked.' }];
    const body: FactBody = { kind: 'recheckFailed', occasion: 'filesChanged', checks };
    return facts.toSpliced(at, 0, { ...fact, seq: facts.length, by: null, body });
  }),
  insider(
    'left-without-badge',
    'A pack was handed over without the badge of whoever left, or of a lead.',
    'who',
    lastOf('handedOver', (fact, { kind, from, to, sighting, reason, lookedBack }) => ({
      ...fact,
      body: { kind, from, to, sighting, reason, lookedBack },
    })),
  ),
  insider(
    'resumed-without-badge',
    'After a break of half an hour the pack went on without a badge.',
    'who',
    lastOf('resumed', (fact, { kind, packer }) => ({ ...fact, body: { kind, packer } })),
  ),
  insider(
    'clock-set-back',
    'The last pack is dated two days back, and no jump of the clock is on record.',
    'time',
    (facts) => {
      const { pack } = facts.at(-1) ?? { pack: '' };
      return facts.map((fact) => (fact.pack === pack ? { ...fact, at: later(fact.at, -2 * 86_400) } : fact));
    },
  ),
];
