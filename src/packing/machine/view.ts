/** What a person is shown and told now. Screens draw it and decide nothing; the kiosk speaks `prompt.say`. */
import type { CommandName } from '../../domain/command';
import type { CheckLine } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import type { LogRecord } from '../../domain/log-record';
import type { Band, ExpectedBand } from '../../domain/measure';
import type { CountNoun, StageKind } from '../../domain/procedure';
import type { Quantity, Unit } from '../../domain/quantity';
import type { Side } from '../../domain/stow/stow-plan';
import type { PromptPart } from '../words/prompt-parts';

export interface Prompt {
  /** Changes exactly when something is to be said anew. */
  readonly key: string;
  readonly say: string;
  /** The same content for the eye; every spoken prompt is on screen (invariant 6). */
  readonly show: string;
}

/**
 * The prompt of a pack or a rehearsal, with its parts in the order in which they are said. All of them joined by spaces
 * are exactly `say`, and all that they show is exactly `show`. A screen shows the kinds that it does not draw otherwise
 * (`shownOf`): one that draws a stage's title, steps and caution itself shows `todo`, `choices` and `say`.
 */
export interface StepPrompt extends Prompt {
  readonly parts: readonly PromptPart[];
}

/** A refusal, warning or answer. Stays until the next accepted act; never vanishes by time. */
export interface Notice {
  readonly tone: 'refusal' | 'warning' | 'answer';
  readonly text: string;
}

/** How a legal command is given by touch. */
export type TouchInput =
  | { readonly kind: 'press' }
  | { readonly kind: 'count'; readonly noun: CountNoun; readonly max: number }
  | { readonly kind: 'quantity'; readonly unit: Unit }
  /** `number` goes into the command (`finding`, `goToStage` or `reopenStage`). */
  | {
      readonly kind: 'choice';
      readonly options: readonly { readonly number: number; readonly label: string }[];
      /** The option beside which something may be written by hand, and how many characters; null for none. */
      readonly note: { readonly number: number; readonly max: number } | null;
    };

export interface LegalCommand {
  readonly name: CommandName;
  /** On the touch control. */
  readonly label: string;
  /** What to say, as an example from the grammar: "five stows". Empty where nothing can be commanded by voice. */
  readonly phrase: string;
  readonly input: TouchInput;
  /** The one expected act now; at most a few are. */
  readonly main: boolean;
}

/** What a scan would be taken for now. */
export type ScanWanted = 'component' | 'inspector' | 'signature' | 'handover' | null;

export interface StowLedgerView {
  readonly done: number;
  readonly planned: number;
  /** The fewest with which the stage may end; `planned` is then the most. Null where the number is fixed. */
  readonly least: number | null;
  /** What is wanted where the number is free: the stage ends when so much is left. Null where it is fixed. */
  readonly wanted: Band | null;
  readonly nextSide: Side | null;
  /** Loop of its side on which the next stow lies, from the centre outward; null where stows lie in turn, or none is due. */
  readonly nextLoop: number | null;
  /** The same for every stow, in order. */
  readonly loops: readonly number[] | null;
  /** Whose left and right are meant; null where the plan does not say. */
  readonly viewpoint: string | null;
  /** Line from the links to the first stow; null for none. */
  readonly leadIn: Quantity | null;
  /** Side of every planned stow, in order; where null, only the next side is drawn. */
  readonly sides: readonly Side[] | null;
  readonly bight: Quantity;
  readonly span: Quantity;
  readonly wraps: number;
  /** Null as long as it is not to be told what should remain; so the next two. */
  readonly lineAtStart: Quantity | null;
  readonly lineUsed: Quantity;
  /** Line that should remain now. */
  readonly lineLeft: Quantity | null;
  /** Line that should remain after the last stow. */
  readonly remainder: Quantity | null;
}

export interface MeasureView {
  readonly what: string;
  /** What is expected; null before a reading was given. */
  readonly band: ExpectedBand | null;
  /** The last affirmed value that lay outside; null for none. */
  readonly outside: {
    readonly value: Quantity;
    readonly deviation: number;
    /** That of the deviation. */
    readonly unit: Unit;
  } | null;
}

/** The release that ended a pack. */
export interface FinalInspection {
  readonly title: string;
  readonly inspector: string;
  readonly certificate: string;
  readonly at: Instant;
}

export type Detail =
  | {
      readonly screen: 'identify';
      readonly slots: readonly {
        readonly component: string;
        readonly serial: string | null;
        readonly state: 'missing' | 'readBack' | 'affirmed';
      }[];
    }
  | {
      readonly screen: 'checkIn';
      readonly assembly: string;
      readonly procedure: string;
      readonly checks: readonly CheckLine[];
      readonly tools: readonly {
        readonly name: string;
        readonly planned: number | null;
        readonly counted: number | null;
      }[];
      /** Index of the tool line to be counted now; null when the checks are being read. */
      readonly current: number | null;
    }
  /** The packer looks over one component before packing. */
  | {
      readonly screen: 'inspection';
      readonly component: string;
      readonly serial: string;
      readonly number: number;
      readonly of: number;
      /** Each to be met; its number is that of the finding that it is not. */
      readonly points: readonly { readonly number: number; readonly label: string }[];
      /** What else can be found, with its number. */
      readonly further: readonly { readonly number: number; readonly label: string }[];
    }
  | { readonly screen: 'blocked'; readonly checks: readonly CheckLine[] }
  | {
      readonly screen: 'stage';
      readonly number: number;
      readonly of: number;
      readonly kind: StageKind | 'restore';
      readonly title: string;
      readonly steps: readonly string[];
      readonly caution: string | null;
      readonly stow: StowLedgerView | null;
      readonly measure: MeasureView | null;
      /** For counting stages: what, and once a count was refused, that count beside the expected one. */
      readonly count: {
        readonly noun: CountNoun;
        readonly expected: number | null;
        readonly counted: number | null;
      } | null;
      readonly item: { readonly name: string; readonly direction: 'in' | 'out' } | null;
      /** Temporary items that are in now. */
      readonly itemsIn: readonly string[];
    }
  | {
      readonly screen: 'hold';
      /** The last one, at the signed pack with its card. */
      readonly final: boolean;
      readonly number: number;
      readonly of: number;
      readonly title: string;
      readonly inspect: readonly string[];
      readonly phase: 'waiting' | 'inspecting' | 'choosingFinding' | 'choosingPoint' | 'choosingStage';
      readonly inspectorClass: string;
      readonly inspector: string | null;
      /** When the time for a verdict ends; null while waiting. */
      readonly deadline: Instant | null;
      readonly findings: readonly { readonly number: number; readonly text: string }[];
      readonly called: boolean;
    }
  | {
      readonly screen: 'closeUp';
      readonly tools: readonly {
        readonly name: string;
        readonly issued: number | null;
        readonly returned: number | null;
      }[];
      readonly current: number | null;
      readonly checks: readonly CheckLine[];
      /** The first count, before the container is closed; the other one comes before the signature. */
      readonly beforeClosing: boolean;
    }
  /** Temporary items: which are to be seen in the tray, and which are inside as they should be. */
  | {
      readonly screen: 'items';
      readonly beforeClosing: boolean;
      readonly out: readonly string[];
      readonly inside: readonly string[];
    }
  | { readonly screen: 'sign'; readonly checks: readonly CheckLine[] }
  /** Signed: the card is printed and goes into its pocket. */
  | { readonly screen: 'card'; readonly record: LogRecord }
  | {
      readonly screen: 'record';
      readonly record: LogRecord;
      /** Who released the final hold; null for a record of an earlier version, which had none. */
      readonly final: FinalInspection | null;
    }
  | {
      readonly screen: 'standingBy';
      readonly since: Instant;
      readonly at: string;
      /** Who is taking the pack over; null where nobody is. */
      readonly handingTo: string | null;
    }
  /** A stop is being put together: its cause first, then what is tagged. */
  | {
      readonly screen: 'stopping';
      readonly step: 'cause' | 'component';
      /** In words; null while it is being chosen. */
      readonly cause: string | null;
      /** When the time for a verdict ends; null where nobody is present to give one. */
      readonly deadline: Instant | null;
    }
  | {
      readonly screen: 'stopped';
      readonly reason: string;
      /** In words; null for a stop of the first edition. */
      readonly cause: string | null;
      /** What carries the tag: "the canopy". */
      readonly tagged: string;
    };

export interface PackView {
  readonly detail: Detail;
  readonly prompt: StepPrompt;
  readonly notice: Notice | null;
  /** A value or act that has been repeated and waits for "affirm"; null for none. */
  readonly readBack: { readonly show: string } | null;
  /** Exactly what may be said, pressed or carded now (invariant 4). */
  readonly legal: readonly LegalCommand[];
  readonly scan: ScanWanted;
  /** True while a fact is on its way to storage; nothing has changed yet. */
  readonly storing: boolean;
  readonly pack: string;
  readonly packer: string;
  /** Assembly name once agreed. */
  readonly assembly: string | null;
  /** That the procedure of this pack must not be packed by; null where it may. */
  readonly demonstration: string | null;
  /** Stages done and planned, for the progress bar; null before the stages. */
  readonly progress: { readonly done: number; readonly of: number } | null;
  readonly ended: boolean;
}

/** The trainee's view: a procedure read aloud, nothing recorded. */
export interface RehearsalView {
  readonly procedure: string;
  readonly revision: string;
  readonly number: number;
  readonly of: number;
  readonly title: string;
  readonly steps: readonly string[];
  readonly caution: string | null;
  readonly hold: string | null;
  /** Speaking rate, 1 = as the voice was made. */
  readonly rate: number;
  readonly prompt: StepPrompt;
  readonly notice: Notice | null;
  /** That this procedure must not be packed by; null where it may. */
  readonly demonstration: string | null;
  readonly legal: readonly LegalCommand[];
}
