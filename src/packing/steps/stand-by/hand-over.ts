/**
 * A hand-over, once the badge of whoever takes over was scanned: the reason, the badge of whoever leaves (or of a lead),
 * a look back at the last released hold. All of it is stored as one fact, or nothing is.
 */
import type { PersonId } from '../../../domain/ids';
import { assert } from '../../../domain/assert';
import type { HandOverReason } from '../../../domain/fact';
import { HAND_OVER_REASONS } from '../../../domain/fact';
import type { Instant } from '../../../domain/instant';
import { epochMs } from '../../../domain/instant';
import { personById } from '../../../domain/loft';
import { mayStandIn } from '../../../domain/person';
import type { Hold, Stage } from '../../../domain/procedure';
import { holdsOf } from '../../../domain/procedure';
import type { Result } from '../../../domain/result';
import { ok, refused } from '../../../domain/result';
import { holderOf, personScanned } from '../../badge/badge-scan';
import type { HandOver, Here } from '../../machine/context';
import { daysAt } from '../../machine/here';
import { onEachDay } from '../../state/days';
import type { Decision } from '../../machine/decision';
import { answer, draft, moveTo, refusal, remarkOn, store } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act, MAIN } from '../../machine/legal';
import { isReleased, procedureOf } from '../../state/pack-state';
import { personName } from '../../state/place';
import type { Scan } from '../../badge/scan-refused';
import { refuseScan } from '../../badge/scan-refused';
import { mayTakeOver } from './stand-by';
import type { Choice } from '../stop/stop-work';
import { plain, words } from '../../words/words';

const REASON_WORDS: Readonly<Record<HandOverReason, string>> = {
  endOfShift: 'End of shift',
  calledAway: 'Called away',
  unwell: 'Unwell',
  relieved: 'Relieved',
  other: 'Other',
};

export const REASONS: readonly Choice[] = HAND_OVER_REASONS.map((reason, index) => ({
  number: index + 1,
  label: REASON_WORDS[reason],
}));

/** Whoever scanned longer ago may have gone away again. */
const MOST_MINUTES = 10;

/** The hand-over under way. */
export function handOverOf({ context }: Here): HandOver {
  assert(context.handOver !== null, 'a hand-over is under way');
  return context.handOver;
}

/** The last hold in the order of the procedure that is released; null for none. */
export function lastReleased({ context }: Here): { readonly hold: Hold; readonly stage: Stage } | null {
  const { loft, state } = context;
  const procedure = procedureOf(loft, state);
  if (procedure === null) return null;
  return holdsOf(procedure).findLast(({ hold }) => isReleased(state, hold.id)) ?? null;
}

/** Why; "negative" gives the hand-over up. */
export function reasonActs(here: Here): readonly Act[] {
  const handOver = handOverOf(here);
  const input = { kind: 'choice', options: REASONS, note: null } as const;
  const phrase = words`finding ${REASONS.length}`.say;
  return [
    act('finding', { ...MAIN, label: 'Reason', phrase, input }, ({ number }, { at }) => {
      const reason = HAND_OVER_REASONS[number - 1];
      if (reason === undefined) {
        return remarkOn(here, refusal(words`There are ${REASONS.length} reasons here. Say finding and its number.`));
      }
      return moveTo(here, 'handOverLeaving', { handOver: { ...handOver, reason }, freshFrom: at });
    }),
    act('negative', {}, () => moveTo(here, 'standingBy', { handOver: null })),
  ];
}

/** While the other badge is awaited. */
export function backActs(here: Here): readonly Act[] {
  const handOver = handOverOf(here);
  return [act('negative', {}, () => moveTo(here, 'handOverReason', { handOver: { ...handOver, reason: null } }))];
}

/** The badge that lets the pack go. */
export function leavingScan(here: Here, scan: Scan): Decision {
  const { context } = here;
  const { meaning, id: sighting } = scan.sighting;
  const handOver = handOverOf(here);
  if (meaning.kind === 'component') {
    return remarkOn(here, refusal(plain('That is a component label. To hand over, scan your badge.')));
  }
  const person = personScanned(context, scan);
  const holder = holderOf(context, scan);
  if (!person.ok) return refuseScan(here, { scan, by: holder }, person);
  const { id, name } = person.value;
  if (id === handOver.to) {
    const why = `${name} takes over and cannot let the pack go as well. The packer or another lead scans.`;
    return refuseScan(here, { scan, by: holder }, refused('takes-over', why));
  }
  const lead = id === context.state.packer ? null : id;
  const may = mayLetGo(here, lead, scan.at);
  if (!may.ok) return refuseScan(here, { scan, by: holder }, may);
  const next = { ...handOver, leaving: { sighting, lead } };
  if (lastReleased(here) === null) return finish(here, next, scan.at);
  return moveTo(here, 'handOverLook', { handOver: next, freshFrom: scan.at });
}

/** A lead who stands in must be one, on every day that counts; whoever leaves needs no standing for it. */
function mayLetGo({ context }: Here, lead: PersonId | null, at: Instant): Result<void> {
  if (lead === null) return ok(undefined);
  const person = personById(context.loft, lead);
  if (person === null) return refused('unknown-badge', 'The loft no longer knows this lead. Another lead scans.');
  return onEachDay(daysAt(context, at), (on) => mayStandIn(person, on));
}

/** The new packer has looked, or sees that it is not so. */
export function lookBackActs(here: Here): readonly Act[] {
  const handOver = handOverOf(here);
  return [
    act('affirm', MAIN, (_, { at }) => finish(here, handOver, at)),
    act('negative', {}, () => moveTo(here, 'handOverLeaving', { handOver: { ...handOver, leaving: null } })),
  ];
}

/** Whether all that was scanned still holds when it is stored: time has gone by, and files may have changed. */
function holdsStill(here: Here, { to, at: since, leaving }: HandOver, at: Instant): Result<void> {
  const { context } = here;
  const person = personById(context.loft, to);
  if (person === null) return refused('unknown-badge', 'The loft no longer knows who takes over. Ask the lead.');
  const ms = epochMs(at) - epochMs(since);
  if (!(ms >= 0 && ms <= MOST_MINUTES * 60_000)) {
    const why = `The badge of ${person.name} was scanned more than ${String(MOST_MINUTES)} minutes ago. Begin again.`;
    return refused('stale', why);
  }
  const may = mayTakeOver(context, person, at);
  return may.ok ? mayLetGo(here, leaving?.lead ?? null, at) : may;
}

function finish(here: Here, handOver: HandOver, at: Instant): Decision {
  const { context } = here;
  const { to, sighting, reason, leaving } = handOver;
  assert(reason !== null && leaving !== null, 'the reason and the other badge are there');
  const may = holdsStill(here, handOver, at);
  if (!may.ok) return moveTo(here, 'standingBy', { handOver: null, remark: refusal(plain(may.detail)) });
  const look = lastReleased(here);
  const { lead } = leaving;
  const body = {
    kind: 'handedOver',
    from: context.state.packer ?? '',
    to,
    sighting,
    fromSighting: leaving.sighting,
    reason,
    lookedBack: look?.hold.id ?? null,
    ...(lead === null ? {} : { lead }),
  } as const;
  const name = personName(context, to);
  const said =
    look === null
      ? words`Handed over to ${name}. No hold is released, so there was nothing to look back at.`
      : words`Handed over to ${name}.`;
  return store(here, [draft(context, { by: to, at, body })], { remark: answer(said) });
}
