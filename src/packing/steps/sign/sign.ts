/** The signature: the badge of the rigger who packs now, still qualified on the day. */
import { dateOf, epochMs } from '../../../domain/instant';
import { personById, repackRuleFor } from '../../../domain/loft';
import { mayPack } from '../../../domain/person';
import type { Person } from '../../../domain/person';
import { sayDate } from '../../../domain/plain-date';
import type { Result } from '../../../domain/result';
import { ok, refused } from '../../../domain/result';
import { holderOf, personScanned } from '../../badge/badge-scan';
import { assemblyById } from '../identify/check-in';
import type { Here } from '../../machine/context';
import { daysAt } from '../../machine/here';
import { onEachDay } from '../../state/days';
import type { Decision } from '../../machine/decision';
import { draft, refusal, remarkOn, store } from '../../machine/decision';
import { logRecordOf, sealMarkOf } from './log-record-of';
import { recheckBody, recheckLines } from '../../machine/recheck';
import { pinRefusal } from '../../badge/pin-rule';
import type { Scan } from '../../badge/scan-refused';
import { refuseScan } from '../../badge/scan-refused';
import { plain } from '../../words/words';

function signerScanned(here: Here, scan: Scan): Result<Person> {
  const { context } = here;
  const person = personScanned(context, scan);
  if (!person.ok) return person;
  const packer = context.state.packer === null ? null : personById(context.loft, context.state.packer);
  if (packer === null || person.value.id !== packer.id) {
    return refused('not-the-packer', `${packer?.name ?? 'The rigger'} packs now and must sign. Scan that badge.`);
  }
  const assembly = assemblyById(context.loft, context.state.agreed?.assembly ?? '');
  if (assembly === null)
    return refused('no-assembly', 'The loft no longer has this assembly. Stop this pack and tag the assembly.');
  const may = onEachDay(daysAt(context, scan.at), (on) => mayPack(packer, assembly.model, on));
  if (!may.ok) return may;
  if (context.loft.settings.seals === true && sealMarkOf(context.loft, context.state) === null) {
    const why = `This loft seals its packs, and no seal mark is on file for ${packer.name}. Ask the lead.`;
    return refused('no-seal-mark', why);
  }
  return pinRefusal(context, { person: packer, use: 'signature' }, scan) ?? ok(packer);
}

/** A scan at the signature: signs, with the whole log record in the fact, or is refused. */
export function signScan(here: Here<'sign'>, scan: Scan): Decision {
  const { context, task } = here;
  const { meaning } = scan.sighting;
  if (meaning.kind === 'component') {
    return remarkOn(here, refusal(plain('That is a component label. Scan your badge to sign.')));
  }
  const signer = signerScanned(here, scan);
  const holder = holderOf(context, scan);
  if (!signer.ok) return refuseScan(here, { scan, by: holder }, signer);
  const assembly = assemblyById(context.loft, context.state.agreed?.assembly ?? '');
  const rule = assembly === null ? null : repackRuleFor(context.loft, assembly);
  if (assembly === null || rule === null) {
    const why = refused('no-repack-rule', 'The loft no longer has the repack rule of this assembly. Ask the lead.');
    return refuseScan(here, { scan, by: holder }, why);
  }
  // What a record rests on cannot lie ahead of it.
  const ahead = context.facts.find(({ at }) => !(epochMs(at) <= epochMs(scan.at)));
  if (ahead !== undefined) {
    const when = `${sayDate(dateOf(ahead.at))}, ${ahead.at.slice(11, 16)}`;
    const why = refused(
      'clock-behind',
      `The clock stands before work of this pack, done at ${when}. Have it set right.`,
    );
    return refuseScan(here, { scan, by: holder }, why);
  }
  const checks = recheckLines(context.loft, context.state, daysAt(context, scan.at));
  const again = draft(context, { by: null, at: scan.at, body: recheckBody('signed', checks) });
  if (again.body.kind === 'recheckFailed') return store(here, [again]);
  const record = logRecordOf({ ...context, procedure: task.procedure, assembly, rule, at: scan.at });
  const isByPin = meaning.kind === 'badge' && meaning.pin === 'fits';
  const pin = isByPin ? ({ pin: true } as const) : {};
  const body = {
    kind: 'signed',
    packer: signer.value.id,
    sighting: scan.sighting.id,
    record,
    awaits: 'finalHold',
    ...pin,
  } as const;
  return store(here, [again, draft(context, { by: signer.value.id, at: scan.at, body })]);
}
