/** What the page of open tags shows and says. */
import { sayCause, type OpenTag } from '../../domain/component/component-book';
import { personById } from '../../domain/loft';
import { sayDate } from '../../domain/plain-date';
import { dateOf } from '../../domain/instant';
import type { TagPlace, TagState } from './tag-work';
import { OUTCOMES, tagLegal } from './tag-work';
import type { LegalCommand, Notice, Prompt } from '../machine/view';
import { capital, joinWords, plain, serialWords, words, type Words } from '../words/words';

export interface TagLine {
  readonly number: number;
  readonly component: string;
  readonly serial: string;
  readonly cause: string;
  readonly reason: string;
  readonly on: string;
  readonly by: string;
}

export interface TagsView {
  readonly step: TagState['step']['at'];
  /** All open tags, oldest first. */
  readonly tags: readonly TagLine[];
  /** The one that is being taken off; null for none. */
  readonly chosen: TagLine | null;
  readonly outcomes: readonly { readonly number: number; readonly label: string }[];
  readonly outcome: string | null;
  readonly prompt: Prompt;
  readonly notice: Notice | null;
  readonly legal: readonly LegalCommand[];
}

function lineOf({ loft, book }: TagPlace, tag: OpenTag): TagLine {
  const { component, serial, cause, reason, at, by } = tag;
  return {
    number: book.tags.findIndex((one) => one.seq === tag.seq && one.serial === serial) + 1,
    component: capital(component),
    serial,
    cause: sayCause(cause) ?? 'not stated',
    reason,
    on: sayDate(dateOf(at)),
    by: by === null ? 'nobody' : (personById(loft, by)?.name ?? by),
  };
}

function partWords({ component, serial }: OpenTag): Words {
  return words`${capital(component)}, serial ${serialWords(serial)}`;
}

function promptOf({ step }: TagState, { book }: TagPlace): Words {
  switch (step.at) {
    case 'list': {
      const count = book.tags.length;
      if (count === 0) return plain('No tag is open.');
      return words`${count === 1 ? plain('One tag is open') : words`${count} tags are open`}. Look at the part first. Say finding and its number to take a tag off.`;
    }
    case 'outcome':
      return words`${partWords(step.tag)}. What was found and done? Say finding and its number.`;
    case 'badge':
      return words`${partWords(step.tag)}: ${step.outcome}. Whoever inspected it scans a badge now.`;
    case 'readBack':
      return words`${step.person.name} takes the tag off ${partWords(step.tag)}: ${step.outcome}. Is that right?`;
    case 'storing':
      return plain('One moment.');
  }
}

/** Draws nothing and decides nothing. */
export function tagsView(state: TagState, place: TagPlace): TagsView {
  const { step, notice, utterance } = state;
  const asked = promptOf(state, place);
  const both = notice === null ? asked : joinWords([plain(notice.text), asked]);
  return {
    step: step.at,
    tags: place.book.tags.map((tag) => lineOf(place, tag)),
    chosen: step.at === 'list' ? null : lineOf(place, step.tag),
    outcomes: OUTCOMES.map((label, index) => ({ number: index + 1, label })),
    outcome: step.at === 'badge' || step.at === 'readBack' ? step.outcome : null,
    prompt: { key: `tags:${String(utterance)}`, say: both.say, show: asked.show },
    notice,
    legal: tagLegal(state, place),
  };
}
