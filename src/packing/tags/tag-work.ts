/** Taking a tag off: which one, what was found and done, by whose fresh badge, read back. No part of any pack. */
import type { PersonId } from '../../domain/ids';
import type { Channel, Command } from '../../domain/command';
import type { ComponentBook, OpenTag } from '../../domain/component/component-book';
import { sayCause } from '../../domain/component/component-book';
import type { FactBody } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import { epochMs } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import type { Person } from '../../domain/person';
import { mayClearTag, personOfBadge } from '../../domain/person';
import type { PlainDate } from '../../domain/plain-date';
import type { Result } from '../../domain/result';
import { ok, refused } from '../../domain/result';
import type { Sighting } from '../../domain/sighting';
import { judgedDays, onEachDay } from '../state/days';
import type { LegalCommand, Notice } from '../machine/view';
import { legalCommand } from '../machine/legal';
import { words } from '../words/words';

/** What can have been found and done, in the order of its numbers. */
export const OUTCOMES = [
  'Inspected: nothing wrong was found',
  'Repaired, and inspected after the repair',
  'Cleaned, dried and aired, and inspected after it',
  'Worn or wrong part exchanged, and inspected after it',
  'Searched: nothing was left inside',
  'Papers put right, and the part inspected',
] as const;

export type TagStep =
  | { readonly at: 'list' }
  | { readonly at: 'outcome'; readonly tag: OpenTag }
  | { readonly at: 'badge'; readonly tag: OpenTag; readonly outcome: string; readonly since: Instant }
  | {
      readonly at: 'readBack';
      readonly tag: OpenTag;
      readonly outcome: string;
      readonly person: Person;
      readonly sighting: Sighting;
    }
  | { readonly at: 'storing'; readonly tag: OpenTag };

export interface TagState {
  readonly step: TagStep;
  readonly notice: Notice | null;
  /** Changes when something is to be said anew. */
  readonly utterance: number;
}

export const TAGS_BEGIN: TagState = { step: { at: 'list' }, notice: null, utterance: 0 };

/** What an act leads to: the state after it, and the fact that is to be stored first, if any. */
export interface TagMove {
  readonly state: TagState;
  readonly store: { readonly by: PersonId; readonly body: FactBody } | null;
}

export interface TagPlace {
  readonly loft: Loft;
  readonly book: ComponentBook;
  /** The latest day that the journal has seen: a clock that was set back makes nobody good again. Null for none. */
  readonly latestDay: PlainDate | null;
}

function to(state: TagState, step: TagStep, notice: Notice | null = null): TagMove {
  return { state: { step, notice, utterance: state.utterance + 1 }, store: null };
}

/** Stays, and says why. */
export function tagRefused(state: TagState, text: string): TagMove {
  return to(state, state.step, { tone: 'refusal', text });
}

const SAY_AGAIN = legalCommand('sayAgain');
const BACK = legalCommand('negative', { label: 'Back' });

function chooseFrom(labels: readonly string[]): LegalCommand {
  const options = labels.map((label, index) => ({ number: index + 1, label }));
  const phrase = words`finding ${labels.length}`.say;
  return legalCommand('finding', { main: true, phrase, input: { kind: 'choice', options, note: null } });
}

/** "Canopy, serial RSY-1, damage". */
function tagName({ component, serial, cause }: OpenTag): string {
  const what = `${component.slice(0, 1).toUpperCase()}${component.slice(1)}, serial ${serial}`;
  const why = sayCause(cause);
  return why === null ? what : `${what}, ${why}`;
}

/** Exactly what can be said, pressed or carded now. */
export function tagLegal({ step }: TagState, { book }: TagPlace): readonly LegalCommand[] {
  switch (step.at) {
    case 'list': {
      const finish = legalCommand('finish');
      return book.tags.length === 0 ? [finish] : [chooseFrom(book.tags.map(tagName)), SAY_AGAIN, finish];
    }
    case 'outcome':
      return [chooseFrom(OUTCOMES), BACK, SAY_AGAIN];
    case 'badge':
      return [BACK, SAY_AGAIN];
    case 'readBack':
      return [legalCommand('affirm', { main: true }), legalCommand('negative', { main: true }), SAY_AGAIN];
    case 'storing':
      return [];
  }
}

/** A command that is legal now. `finish` is for whoever shows the page. */
export function tagCommand(
  state: TagState,
  place: TagPlace,
  { command, channel, at }: { readonly command: Command; readonly channel: Channel; readonly at: Instant },
): TagMove {
  const { step } = state;
  if (!tagLegal(state, place).some(({ name }) => name === command.name)) return { state, store: null };
  if (command.name === 'sayAgain') return to(state, step);
  if (command.name === 'finding') return choose(state, place, { number: command.number, at });
  if (command.name === 'affirm' && step.at === 'readBack') return affirm({ ...state, step }, place, { channel, at });
  if (command.name !== 'negative') return { state, store: null };
  if (step.at === 'badge') return to(state, { at: 'outcome', tag: step.tag });
  return to(state, { at: 'list' });
}

interface Choice {
  readonly number: number;
  readonly at: Instant;
}

function choose(state: TagState, { book }: TagPlace, { number, at }: Choice): TagMove {
  const { step } = state;
  if (step.at === 'list') {
    const tag = book.tags[number - 1];
    return tag === undefined ? tagRefused(state, 'No tag here has that number.') : to(state, { at: 'outcome', tag });
  }
  if (step.at !== 'outcome') return { state, store: null };
  const outcome = OUTCOMES[number - 1];
  if (outcome === undefined) return tagRefused(state, 'Nothing here has that number.');
  return to(state, { at: 'badge', tag: step.tag, outcome, since: at });
}

type ReadBack = Extract<TagStep, { at: 'readBack' }>;

function affirm(
  state: TagState & { readonly step: ReadBack },
  place: TagPlace,
  { channel, at }: { readonly channel: Channel; readonly at: Instant },
): TagMove {
  const { tag, outcome, person, sighting } = state.step;
  const passed = (epochMs(at) - epochMs(sighting.at)) / 1000;
  // Written so that a time that is no time counts as run out.
  if (!(passed >= 0 && passed < place.loft.settings.verdictSeconds)) {
    const text = 'The time after the badge has run out. Scan the badge again.';
    return to(state, { at: 'badge', tag, outcome, since: at }, { tone: 'warning', text });
  }
  if (!place.book.tags.some((one) => one.seq === tag.seq && one.serial === tag.serial)) {
    return to(state, { at: 'list' }, { tone: 'warning', text: 'This tag is off already.' });
  }
  // The files may say otherwise by now, and the day may have ended.
  const still = mayClear(place, tag, { sighting, at });
  if (!still.ok) return to(state, { at: 'badge', tag, outcome, since: at }, { tone: 'refusal', text: still.detail });
  const { component, serial, seq } = tag;
  const given = sighting.meaning.kind === 'badge' && sighting.meaning.pin === 'fits' ? ({ pin: true } as const) : {};
  const body: FactBody = {
    kind: 'tagCleared',
    tag: seq,
    component,
    serial,
    inspector: person.id,
    sighting: sighting.id,
    ...given,
    finding: outcome,
    channel,
  };
  return { ...to(state, { at: 'storing', tag }), store: { by: person.id, body } };
}

/** Whoever scanned this badge, if they may take this tag off at this moment; the PIN is asked for elsewhere. */
export function mayClear(
  { loft, latestDay }: TagPlace,
  tag: OpenTag,
  { sighting: { meaning }, at }: { readonly sighting: Sighting; readonly at: Instant },
): Result<Person> {
  if (meaning.kind === 'refused') return refused('not-a-badge', `${meaning.detail} Scan a badge.`);
  if (meaning.kind !== 'badge') return refused('not-a-badge', 'That is no badge. Scan the badge of the inspector.');
  const person = personOfBadge(loft.people, meaning.badgeDigest);
  if (person === null) return refused('unknown-badge', 'The loft does not know this badge. Ask the lead.');
  const assembly =
    loft.assemblies.find(({ id }) => id === tag.assembly) ??
    loft.assemblies.find(({ components }) => components.some(({ serial }) => serial === tag.serial));
  if (assembly === undefined) {
    return refused('no-assembly', 'The loft no longer has this part in its files. The tag stays. Ask the lead.');
  }
  const { model } = assembly;
  const may = onEachDay(judgedDays(latestDay, at), (on) => mayClearTag(person, { model, packers: tag.packers, on }));
  return may.ok ? ok(person) : may;
}

/** A badge at this page, its PIN dealt with: read back, or refused. */
export function tagBadge(state: TagState, place: TagPlace, sighting: Sighting): TagMove {
  const { step } = state;
  if (step.at !== 'badge') return tagRefused(state, 'Not now: choose a tag and what was found first.');
  if (epochMs(sighting.at) < epochMs(step.since)) {
    return tagRefused(state, 'That scan was not made just now. Scan the badge again.');
  }
  const person = mayClear(place, step.tag, { sighting, at: sighting.at });
  if (!person.ok) return tagRefused(state, person.detail);
  const { tag, outcome } = step;
  return to(state, { at: 'readBack', tag, outcome, person: person.value, sighting });
}

/** The answer of the journal. */
export function tagStored(state: TagState, failure: string | null): TagMove {
  const { step } = state;
  if (step.at !== 'storing') return { state, store: null };
  const notice: Notice =
    failure === null
      ? { tone: 'answer', text: `The tag is off: ${tagName(step.tag)}.` }
      : { tone: 'warning', text: `Nothing was recorded, and the tag stays. ${failure}` };
  return to(state, { at: 'list' }, notice);
}
