/** Whether a badge alone will do: the loft's rule on PINs, tries that failed, and the waits that they cost. */
import type { PersonId } from '../../domain/ids';
import type { Fact, FactBody } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import { epochMs } from '../../domain/instant';
import type { Person } from '../../domain/person';
import type { Refused } from '../../domain/result';
import { refused } from '../../domain/result';
import type { PackContext } from '../machine/context';
import type { Scan } from './scan-refused';

/** Seconds to wait after so many wrong PINs in a row; longer rows wait as long as the last. */
const WAITS = [0, 0, 0, 30, 60, 120, 300, 600, 900, 900] as const;
/** After so many in a row the person gives no verdict in this pack any more. */
const MOST_TRIES = 10;

/** What is known of earlier tries, and the loft's rule. */
export type PinContext = Pick<PackContext, 'loft' | 'facts' | 'elsewhere'>;

export type PinUse = 'hold' | 'signature';

interface Failures {
  readonly count: number;
  readonly last: Instant | null;
}

/** Wrong PINs of this person in a row, and when the last was; facts outlive a restart, so these do. */
function failuresOf(facts: readonly Fact[], person: PersonId): Failures {
  let count = 0;
  let last: Instant | null = null;
  for (const fact of facts) {
    if (isWrongPin(fact, person)) {
      count += 1;
      last = fact.at;
    } else if (wasRight(fact, person)) {
      count = 0;
    }
  }
  return { count, last };
}

/** Ends a session: whoever was known by PIN before it may have gone. */
const SESSION_ENDS: ReadonlySet<FactBody['kind']> = new Set(['restarted', 'stoodBy', 'handedOver']);

function isWrongPin({ body, by }: Fact, person: PersonId): boolean {
  return body.kind === 'scanRefused' && body.reason === 'pin-wrong' && by === person;
}

/** Whatever it was given for, a right PIN ends the row of wrong ones: it costs nobody a wait later. */
function wasRight({ body, by }: Fact, person: PersonId): boolean {
  return by === person && 'pin' in body && body.pin === true;
}

function isRightPin({ body }: Fact, person: PersonId): boolean {
  return body.kind === 'inspectorPresent' && body.pin === true && body.inspector === person;
}

/** Whether this person has given a PIN in this pack since it was last taken up, and no wrong one after it. */
function isKnown({ facts }: PinContext, person: PersonId): boolean {
  const last = facts.findLast(
    (fact) => SESSION_ENDS.has(fact.body.kind) || isWrongPin(fact, person) || isRightPin(fact, person),
  );
  return last !== undefined && isRightPin(last, person);
}

function isWanted(context: PinContext, person: Person, use: PinUse): boolean {
  const policy = context.loft.settings.pin ?? 'never';
  if (policy === 'never') return false;
  return policy === 'eachHold' || use === 'signature' || !isKnown(context, person.id);
}

/** What still has to be waited, in whole seconds. A clock that was set back lets nobody off. */
function secondsToWait(last: Instant | null, count: number, now: Instant): number {
  const wait = WAITS[Math.min(count, WAITS.length - 1)] ?? 0;
  if (last === null) return 0;
  const passed = (epochMs(now) - epochMs(last)) / 1000;
  if (!(passed >= 0)) return wait;
  return Math.max(0, Math.ceil(wait - passed));
}

/** Whose badge it is, and what it is to open. */
interface PinAsked {
  readonly person: Person;
  readonly use: PinUse;
}

/**
 * Why this badge does not do, whoever it belongs to: a PIN is missing, wrong, or may not be tried now. Null where it
 * does. Everything else that is asked of the person has been asked before.
 */
export function pinRefusal(context: PinContext, { person, use }: PinAsked, scan: Scan): Refused | null {
  const { meaning } = scan.sighting;
  const given = meaning.kind === 'badge' ? meaning.pin : undefined;
  // A wrong one is never let pass, not even where none was wanted.
  if (!isWanted(context, person, use) && given !== 'wrong') return null;
  if (person.pin === undefined) {
    return refused('no-pin', `${person.name} has no PIN, and this loft wants one. Ask the lead.`);
  }
  if (failuresOf(context.facts, person.id).count >= MOST_TRIES) {
    return refused('pin-locked', `Too many wrong PINs for ${person.name}. Somebody else must do this. Tell the lead.`);
  }
  // In other packs too: a new pack must not be a way to try again at once.
  const everywhere = [...context.elsewhere, ...context.facts].sort((one, other) => one.seq - other.seq);
  const { count, last } = failuresOf(everywhere, person.id);
  const wait = secondsToWait(last, count, scan.at);
  if (wait > 0) {
    return refused('pin-wait', `Too many wrong PINs. Wait ${String(wait)} seconds, then scan the badge again.`);
  }
  if (given === undefined) return refused('pin-needed', 'This loft wants a PIN with the badge. Scan the badge again.');
  return given === 'fits' ? null : refused('pin-wrong', 'The PIN is wrong. Scan the badge again.');
}
