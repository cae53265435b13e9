/** Stop and tag: the cause, then what is tagged, then a read-back; "negative" goes back one step at a time. */
import type { PersonId } from '../../../domain/ids';
import { assert } from '../../../domain/assert';
import { COMPONENT_KINDS } from '../../../domain/component/component';
import type { ComponentKind } from '../../../domain/component/component';
import type { StopCause } from '../../../domain/fact';
import { STOP_CAUSES } from '../../../domain/fact';
import { cut } from '../../words/bounded';
import type { Here, Stopping } from '../../machine/context';
import { restingPhase } from '../../machine/here';
import type { Decision } from '../../machine/decision';
import { moveTo, readBackOf, refusal, remarkOn } from '../../machine/decision';
import { DAMAGE } from '../hold/findings';
import type { Act, Said } from '../../machine/legal';
import { act, MAIN } from '../../machine/legal';
import { personName, placeWords } from '../../state/place';
import { capital, plain, words } from '../../words/words';

export const CAUSE_WORDS: Readonly<Record<StopCause, string>> = {
  damage: 'damage',
  contamination: 'contamination',
  wrongPart: 'wrong part',
  lostCount: 'lost count',
  checks: 'failed checks',
  other: 'other',
};

/** Longest reason that is stored, in characters; what is longer is cut. */
export const REASON_MAX = 1_000;

export interface Choice {
  readonly number: number;
  readonly label: string;
}

/** Of every choice, in its order. */
export function labelsOf(all: readonly Choice[]): readonly string[] {
  return all.map(({ label }) => label);
}

/** Same numbers everywhere. */
export const CAUSES: readonly Choice[] = STOP_CAUSES.map((cause, index) => ({
  number: index + 1,
  label: capital(CAUSE_WORDS[cause]),
}));

export const TAGGABLE: readonly Choice[] = [...COMPONENT_KINDS.map(capital), 'The whole assembly'].map(
  (label, index) => ({ number: index + 1, label }),
);

/** What carries the tag, in words. */
export function taggedWords(component: ComponentKind | undefined): string {
  return component === undefined ? 'the whole assembly' : `the ${component}`;
}

function reasonOf({ context, task }: Here, by: PersonId | null, cause: StopCause): string {
  const failed = task.kind === 'blocked' ? task.checks.filter((line) => !line.passed) : [];
  const why = failed.map((line) => ` ${line.label}: ${line.detail}`).join('');
  return cut(
    `Stopped by ${personName(context, by)} at ${placeWords(task).show}. Cause: ${CAUSE_WORDS[cause]}.${why}`,
    REASON_MAX,
  );
}

/** Begins a stop: asks for its cause. */
export function stopAndTag(here: Here): Act {
  return act('stopAndTag', { main: here.phase === 'blocked' }, () => moveTo(here, 'choosingCause'));
}

/** A stop for damage that an inspector has found. */
export function stopForDamage(here: Here): Decision {
  return moveTo(here, 'choosingComponent', { stopping: { cause: 'damage', isVerdict: true } });
}

function causedBy(here: Here, cause: StopCause | undefined): Decision {
  if (cause === undefined) {
    return remarkOn(here, refusal(words`There are ${CAUSES.length} causes here. Say finding and its number.`));
  }
  if (cause === 'checks' && here.task.kind !== 'blocked') {
    return remarkOn(here, refusal(plain('No check has failed here. Choose another cause.')));
  }
  return moveTo(here, 'choosingComponent', { stopping: { cause, isVerdict: false } });
}

/** Why the pack is stopped. Where checks block it, they are the cause unless another one is named. */
export function causeActs(here: Here): readonly Act[] {
  const { task, context } = here;
  const input = { kind: 'choice', options: CAUSES, note: null } as const;
  const phrase = words`finding ${CAUSES.length}`.say;
  const preselected =
    task.kind === 'blocked'
      ? [act('affirm', { ...MAIN, label: 'Affirm: failed checks' }, () => causedBy(here, 'checks'))]
      : [];
  return [
    ...preselected,
    act('finding', { ...MAIN, label: 'Cause', phrase, input }, ({ number }) => causedBy(here, STOP_CAUSES[number - 1])),
    act('negative', {}, () => moveTo(here, restingPhase(context), { stopping: null })),
  ];
}

function stoppingOf({ context }: Here): Stopping {
  assert(context.stopping !== null, 'a pack is being stopped');
  return context.stopping;
}

function readBackStop(here: Here, component: ComponentKind | undefined, { channel }: Said): Decision {
  const { context, task } = here;
  const { cause, isVerdict } = stoppingOf(here);
  const tagged = taggedWords(component);
  const ends = words`Stop this pack for good: ${CAUSE_WORDS[cause]}. Tag ${tagged} as not fit for use.`;
  const by = isVerdict ? (context.presence?.inspector ?? null) : context.state.packer;
  const tag = component === undefined ? {} : { component };
  const stopped = { kind: 'stopped', reason: reasonOf(here, by, cause), cause, ...tag } as const;
  if (!isVerdict) return readBackOf(here, ends, { kind: 'store', by, bodies: [stopped], remark: null });
  const { presence } = context;
  assert(task.kind === 'hold' && presence !== null, 'an inspector is present at a hold');
  const { inspector, sighting } = presence;
  const back = { finding: DAMAGE, backTo: task.stage.id, channel } as const;
  const returned = { kind: 'holdReturned', hold: task.hold.id, inspector, sighting, ...back } as const;
  // One write holds both: a return for damage never stands without its stop.
  return readBackOf(here, ends, { kind: 'store', by, bodies: [returned, stopped], remark: null });
}

function tagFor(here: Here, number: number, said: Said): Decision {
  if (number === TAGGABLE.length) return readBackStop(here, undefined, said);
  const component = COMPONENT_KINDS[number - 1];
  if (component === undefined) {
    return remarkOn(here, refusal(words`Choose from one to ${TAGGABLE.length}. Say finding and its number.`));
  }
  if (!here.context.state.identified.has(component)) {
    const what = `The ${component} has not been identified. Choose another, or the whole assembly.`;
    return remarkOn(here, refusal(plain(what)));
  }
  return readBackStop(here, component, said);
}

/** What is tagged. */
export function componentActs(here: Here): readonly Act[] {
  const { isVerdict } = stoppingOf(here);
  const input = { kind: 'choice', options: TAGGABLE, note: null } as const;
  const phrase = words`finding ${TAGGABLE.length}`.say;
  return [
    act('finding', { ...MAIN, label: 'To be tagged', phrase, input }, ({ number }, said) => tagFor(here, number, said)),
    act('negative', {}, () => moveTo(here, isVerdict ? 'choosingFinding' : 'choosingCause', { stopping: null })),
  ];
}
