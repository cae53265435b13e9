/** What the enrolment of a voice shows. It is no part of a pack, and none of it becomes a fact. */
import type { LegalCommand, Notice, Prompt } from './pack-view';

/** What became of an enrolment. */
export type EnrolOutcome = 'kept' | 'erased' | 'nothing';

export type EnrolStep =
  /** Whose voice it is, is not known yet. */
  | { readonly at: 'badge' }
  /** What is kept, where, and how to erase it, before anything is read. */
  | { readonly at: 'ready'; readonly about: readonly { readonly name: string; readonly text: string }[] }
  | { readonly at: 'reading'; readonly words: string; readonly number: number; readonly of: number }
  /** Stopped before the end: whether what was read is to be kept. */
  | { readonly at: 'stopped' }
  | { readonly at: 'storing' }
  | { readonly at: 'done'; readonly outcome: EnrolOutcome };

export interface EnrolView {
  readonly step: EnrolStep;
  /** Name of the person; null before the badge. */
  readonly person: string | null;
  readonly prompt: Prompt;
  readonly notice: Notice | null;
  /** By touch, key or card: what is said here is a sample and never a command, so no phrase stands beside them. */
  readonly legal: readonly LegalCommand[];
}
