/** What can be to do in a pack: one kind for each step. */
import type { Serial } from '../../domain/ids';
import type { ComponentKind } from '../../domain/component/component';
import type { CheckLine } from '../../domain/fact';
import type { LogRecord } from '../../domain/log-record';
import type { Hold, Procedure, Stage, TemporaryItem, ToolLine } from '../../domain/procedure';
import type { StoppedBody } from './pack-state';

export type Task =
  | { readonly kind: 'identify' }
  /** Nothing talks past it: the pack can only be stopped and tagged. */
  | {
      readonly kind: 'blocked';
      readonly checks: readonly CheckLine[];
      /** These checks are made again when the files change, or somebody takes over. */
      readonly again?: true;
    }
  /** The packer looks over this component before anything is packed. */
  | {
      readonly kind: 'inspect';
      readonly procedure: Procedure;
      readonly component: ComponentKind;
      readonly serial: Serial;
      readonly number: number;
      readonly of: number;
    }
  | { readonly kind: 'toolOut'; readonly procedure: Procedure; readonly tool: ToolLine; readonly index: number }
  /** A temporary item lies otherwise than stage `before` needs it (null: than the end needs it). */
  | {
      readonly kind: 'restore';
      readonly procedure: Procedure;
      readonly item: TemporaryItem;
      readonly direction: 'in' | 'out';
      readonly before: Stage | null;
    }
  | { readonly kind: 'stage'; readonly procedure: Procedure; readonly stage: Stage }
  /** The final hold is said to follow the last stage; only `final` tells it from that stage's own. */
  | {
      readonly kind: 'hold';
      readonly procedure: Procedure;
      readonly stage: Stage;
      readonly hold: Hold;
      readonly final: boolean;
    }
  /** One line of tools, before the container is closed over everything. */
  | { readonly kind: 'toolCheck'; readonly procedure: Procedure; readonly tool: ToolLine; readonly index: number }
  | {
      readonly kind: 'items';
      readonly procedure: Procedure;
      readonly before: 'closing' | 'signature';
      /** To be seen in the tray. */
      readonly out: readonly TemporaryItem[];
      readonly inside: readonly TemporaryItem[];
    }
  | { readonly kind: 'toolBack'; readonly procedure: Procedure; readonly tool: ToolLine; readonly index: number }
  | { readonly kind: 'sign'; readonly procedure: Procedure; readonly checks: readonly CheckLine[] }
  /** Signed: the data card goes into its pocket. */
  | { readonly kind: 'card'; readonly procedure: Procedure; readonly record: LogRecord }
  | { readonly kind: 'recorded'; readonly record: LogRecord }
  | { readonly kind: 'stopped'; readonly stopped: StoppedBody };

export type TaskKind = Task['kind'];

/** The task of each kind, so that a function for one kind can be found by it. */
export type Tasks = { readonly [K in TaskKind]: Extract<Task, { readonly kind: K }> };

/** Two tasks are the same step when this agrees; then the step need not be read out again. */
export function taskKey(task: Task): string {
  switch (task.kind) {
    case 'toolOut':
    case 'toolCheck':
    case 'toolBack':
      return `${task.kind}:${task.tool.id}`;
    case 'inspect':
      return `inspect:${task.component}`;
    case 'items':
      return `items:${task.before}`;
    case 'restore':
      return `restore:${task.direction}:${task.item.id}`;
    case 'stage':
      return `stage:${task.stage.id}`;
    case 'hold':
      return `hold:${task.hold.id}`;
    default:
      return task.kind;
  }
}
