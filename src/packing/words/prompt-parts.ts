/** What a prompt is made of, so that a screen can show what it does not draw otherwise. */
import type { Words } from './words';
import { joinWords, plain, sentence, words } from './words';

/** What each part of a prompt is for. */
export const PART_KINDS = [
  /** A refusal, warning or answer that is said first. Its `show` is empty: a notice stands in a panel of its own. */
  'notice',
  /** What it is: number and name of the step, or what has come about. */
  'what',
  /** Lines that are read out one by one: the steps of a stage, its hold, points to be met, checks that failed. */
  'lines',
  /** A word of caution. */
  'caution',
  /** What can be chosen, each with its number. */
  'choices',
  /** What to do. */
  'todo',
  /** What can be said to the kiosk. */
  'say',
] as const;
export type PartKind = (typeof PART_KINDS)[number];

/** One part in both forms, for the voice (`say`) and for the eye (`show`). */
export interface PromptPart extends Words {
  readonly kind: PartKind;
}

/** A part of this kind. */
export function part(kind: PartKind, text: Words | string): PromptPart {
  const { say, show } = typeof text === 'string' ? plain(text) : text;
  return { kind, say, show };
}

/** A list, each line with its number. */
export function numbered(kind: PartKind, all: readonly string[]): PromptPart {
  return part(kind, joinWords(all.map((one, index) => words`Number ${index + 1}: ${sentence(one)}`)));
}

/** What the parts of these kinds show, in the order in which they are said; empty for none. */
export function shownOf(parts: readonly PromptPart[], kinds: readonly PartKind[]): string {
  return joinWords(parts.filter(({ kind }) => kinds.includes(kind))).show;
}
