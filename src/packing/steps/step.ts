/** The shape of a step: what can be done in it, what is said, what is drawn, and what a scan is taken for. */
import type { Scan } from '../badge/scan-refused';
import type { Here } from '../machine/context';
import type { Decision } from '../machine/decision';
import type { Act } from '../machine/legal';
import type { Detail, ScanWanted } from '../machine/view';
import type { TaskKind } from '../state/task';
import type { PromptPart } from '../words/prompt-parts';

/** What a scan is taken for, and what it leads to. */
export interface ScanTaker {
  readonly wanted: NonNullable<ScanWanted>;
  readonly take: (scan: Scan) => Decision;
}

/** A step for tasks of kind K; for any task where it lies over one, as standing by does. */
export interface Step<K extends TaskKind = TaskKind> {
  /** Exactly what is accepted, the most expected first. */
  readonly acts: (here: Here<K>) => readonly Act[];
  /** All of it on arrival, and only what is new while the step goes on. */
  readonly prompt: (here: Here<K>) => readonly PromptPart[];
  /** What the screen draws. */
  readonly detail: (here: Here<K>) => Detail;
  /** What a scan would be taken for; a step without it wants none. */
  readonly scan?: (here: Here<K>) => ScanTaker | null;
}
