/** One event in, one decision out. What is legal and what is accepted come from the same list of acts. */
import type { Command } from '../../domain/command';
import type { Scan } from '../badge/scan-refused';
import { stepAt } from '../steps';
import { hasLapsed } from '../steps/hold/hold-scan';
import { unwanted } from '../steps/read-back/unwanted-scan';
import { breakGrows } from '../steps/stand-by/stand-by';
import { plain, words } from '../words/words';
import type { Here, PackContext, Phase } from './context';
import type { Decision } from './decision';
import { draft, refusal, remarkOn, store, warning } from './decision';
import type { PackEvent } from './event';
import { takeFiles } from './files-changed';
import { withFollowUps } from './follow-ups';
import { hereOf } from './here';
import type { Said } from './legal';
import { WORDING } from './legal';

type Heard = Extract<PackEvent, { type: 'COMMAND' | 'SIGHTED' | 'TICK' }>;
/** What a decision is taken on. */
export type DecidedEvent = Extract<PackEvent, { type: 'FILES' }> | Heard;

interface Taken {
  readonly phase: Phase;
  readonly context: PackContext;
  readonly decision: Decision | null;
}

/** The decision of each event, for the guards and the action of the machine that all ask for it. */
const TAKEN = new WeakMap<DecidedEvent, Taken>();

/**
 * Where an event leads from this phase; null when it is none of the pack's business. An event is decided once: whoever
 * asks again for the same event in the same place is given the same decision.
 */
export function decide(phase: Phase, context: PackContext, event: DecidedEvent): Decision | null {
  const taken = TAKEN.get(event);
  if (taken?.phase === phase && taken.context === context) return taken.decision;
  const decision = whole(context, decideOn(hereOf(phase, context), event));
  TAKEN.set(event, { phase, context, decision });
  return decision;
}

/** Adds to what is to be stored what the kiosk itself owes behind it. */
function whole(context: PackContext, decision: Decision | null): Decision | null {
  const pending = decision?.patch.pending ?? null;
  const last = pending?.drafts.at(-1);
  if (decision === null || pending === null || last === undefined) return decision;
  const drafts = withFollowUps({ ...context, ...decision.patch }, pending.drafts, last.at);
  return { ...decision, patch: { ...decision.patch, pending: { ...pending, drafts } } };
}

function decideOn(here: Here, event: DecidedEvent): Decision | null {
  if (event.type === 'FILES') return takeFiles(here, event);
  const { presence } = here.context;
  if (presence !== null && hasLapsed(presence, event.at)) return lapse(here, event);
  if (event.type === 'TICK') return breakGrows(here, event.at);
  if (event.type === 'COMMAND') return command(here, event.command, event);
  return sighted(here, event);
}

function command(here: Here, given: Command, said: Said): Decision {
  const found = stepAt(here)
    .acts()
    .find(({ legal }) => legal.name === given.name);
  if (found === undefined) return remarkOn(here, refusal(words`Not now: ${WORDING[given.name].label.toLowerCase()}.`));
  const { input } = found.legal;
  if (given.name === 'count' && input.kind === 'count' && input.noun !== given.noun) {
    return remarkOn(here, refusal(words`Not now: count ${given.noun}. Here, ${input.noun} are counted.`));
  }
  return found.take(given, said);
}

function sighted(here: Here, scan: Scan): Decision | null {
  const { meaning, id } = scan.sighting;
  const { seen } = here.context;
  const decision =
    meaning.kind === 'command' && !seen.includes(id)
      ? command(here, meaning.command, { channel: 'card', at: scan.at })
      : scanned(here, scan);
  return decision === null ? null : { ...decision, patch: { ...decision.patch, seen: [...seen, id] } };
}

function scanned(here: Here, scan: Scan): Decision | null {
  // The same card delivered twice was shown once.
  if (scan.sighting.meaning.kind === 'command') return null;
  const taker = stepAt(here).scan();
  return taker === null ? unwanted(here, scan) : taker.take(scan);
}

/**
 * The time for a verdict is over: the inspector counts as gone at once, stored or not. A command that comes with it
 * came too late and does nothing; a badge is a new act and is looked at.
 */
function lapse(here: Here, event: Heard): Decision {
  const { presence } = here.context;
  if (presence === null) return remarkOn(here, warning(plain('No inspector is present.')));
  const { hold, inspector } = presence;
  const lapsed = draft(here.context, { by: null, at: event.at, body: { kind: 'verdictLapsed', hold, inspector } });
  const gone = { presence: null, readBack: null, finding: null, stopping: null, owed: [...here.context.owed, lapsed] };
  const waiting = hereOf('waitingForInspector', { ...here.context, ...gone });
  const next = event.type === 'SIGHTED' ? sighted(waiting, event) : null;
  if (next?.to === 'storing') return { to: 'storing', patch: { ...gone, ...next.patch } };
  const remark = warning(plain('The time for a verdict has run out. Scan the badge of the inspector again.'));
  const stored = store(waiting, [], { remark });
  return { to: 'storing', patch: { ...gone, ...next?.patch, ...stored.patch } };
}
