/** A badge at a hold: only a fresh scan of a qualified person who has not packed lets anybody give a verdict. */
import type { PersonId } from '../../../domain/ids';
import type { Instant } from '../../../domain/instant';
import { epochMs } from '../../../domain/instant';
import { mayInspect } from '../../../domain/person';
import { assert } from '../../../domain/assert';
import type { Refused } from '../../../domain/result';
import { refused } from '../../../domain/result';
import { holderOf, personScanned } from '../../badge/badge-scan';
import { assemblyById } from '../identify/check-in';
import type { Here, Presence } from '../../machine/context';
import { daysAt } from '../../machine/here';
import { onEachDay } from '../../state/days';
import type { Decision } from '../../machine/decision';
import { answer, draft, refusal, remarkOn, store } from '../../machine/decision';
import { pinRefusal } from '../../badge/pin-rule';
import type { Scan } from '../../badge/scan-refused';
import { refuseScan } from '../../badge/scan-refused';
import { plain, words } from '../../words/words';
import type { ScanTaker } from '../step';

/** Whether the time for a verdict has run out, or the clock was set back so that nobody can tell. */
export function hasLapsed(presence: Presence, at: Instant): boolean {
  const now = epochMs(at);
  // Written so that a time that is no time counts as lapsed.
  return !(now >= epochMs(presence.at) && now < epochMs(presence.deadline));
}

/** The moment `seconds` after a scan, in UTC. */
function deadlineAfter(at: Instant, seconds: number): Instant {
  return new Date(epochMs(at) + seconds * 1000).toISOString();
}

/** Where a verdict may be under way: the badge of an inspector is wanted only where one is. */
export function verdictScan(here: Here): ScanTaker | null {
  return here.context.presence === null ? null : inspectorScan(here);
}

/** At a hold, whoever may be present already. */
export function inspectorScan(here: Here): ScanTaker {
  return { wanted: 'inspector', take: (scan) => holdScan(here, scan) };
}

/** A scan at a hold, whoever may be present already. */
function holdScan(here: Here, scan: Scan): Decision {
  const { context, task } = here;
  assert(task.kind === 'hold', 'an inspector is wanted only at a hold');
  const { meaning } = scan.sighting;
  // Labels lie on the table all the time: they are told apart, but they are no attempt at anything.
  if (meaning.kind === 'component') {
    return remarkOn(here, refusal(plain('That is a component label. Scan the badge of the inspector.')));
  }
  const inspector = inspectorScanned(here, scan);
  if ('reason' in inspector) return refuseScan(here, { scan, by: holderOf(context, scan) }, inspector);
  const presence: Presence = {
    hold: task.hold.id,
    inspector: inspector.id,
    sighting: scan.sighting.id,
    at: scan.sighting.at,
    deadline: deadlineAfter(scan.sighting.at, context.loft.settings.verdictSeconds),
  };
  // A scan that was held up so long that its time is over gives no time at all.
  if (hasLapsed(presence, scan.at)) {
    return refuseScan(
      here,
      { scan, by: inspector.id },
      refused('stale', 'That scan is too old. Scan the badge again.'),
    );
  }
  const { hold, sighting } = presence;
  const isByPin = meaning.kind === 'badge' && meaning.pin === 'fits';
  const pin = isByPin ? ({ pin: true } as const) : {};
  const body = { kind: 'inspectorPresent', hold, inspector: inspector.id, sighting, ...pin } as const;
  const remark = answer(words`Inspector ${inspector.name}.`);
  return store(here, [draft(context, { by: inspector.id, at: scan.at, body })], { presence, remark });
}

function inspectorScanned(here: Here, scan: Scan): { readonly id: PersonId; readonly name: string } | Refused {
  const { context, task } = here;
  assert(task.kind === 'hold', 'an inspector is wanted only at a hold');
  const person = personScanned(context, scan);
  if (!person.ok) return person;
  const { packers, agreed } = context.state;
  const assembly = agreed === null ? null : assemblyById(context.loft, agreed.assembly);
  if (assembly === null)
    return refused('no-assembly', 'The loft no longer has this assembly. Stop this pack and tag the assembly.');
  const of = { model: assembly.model, holdClass: task.hold.inspectorClass, packers };
  const may = onEachDay(daysAt(context, scan.at), (on) => mayInspect(person.value, { ...of, on }));
  if (!may.ok) return may;
  return pinRefusal(context, { person: person.value, use: 'hold' }, scan) ?? person.value;
}
