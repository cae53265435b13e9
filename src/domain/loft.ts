/** The loft around the table: its settings, people, assemblies and procedures, all checked at load. */
import type { PersonId } from './ids';
import type { Assembly } from './component/component';
import type { Person } from './person';
import type { PinPolicy } from './pin';
import type { Procedure } from './procedure';
import type { RepackRule } from './component/repack-rule';
import type { LabelKind, ScannerSettings } from './scanning';

/** Whether the voice comes from a loudspeaker that the microphone can hear, or from a headset that it cannot. */
export const LOUDSPEAKERS = ['open', 'headset'] as const;
export type Loudspeaker = (typeof LOUDSPEAKERS)[number];

/** When an expected count or length is shown: once a reading was given, or to packing trainees before it too. */
export const EXPECTED_SHOWN = ['afterwards', 'alsoBeforeForTrainees'] as const;
export type ExpectedShown = (typeof EXPECTED_SHOWN)[number];

/** Minutes of a break after which going on wants a badge, where the loft says nothing else. */
export const RESUME_BADGE_MINUTES = 15;

export interface LoftSettings {
  /** Absent: open. How late it is, is measured then. */
  readonly loudspeaker?: Loudspeaker | undefined;
  readonly name: string;
  /** Where packing is done, as the log record states it (14 CFR 65.131(a)(5)). */
  readonly place: string;
  readonly table: string;
  /** Seconds within which an inspector must give a verdict after the badge scan. */
  readonly verdictSeconds: number;
  /** Minutes of a break after which going on wants the packer's badge; absent: `RESUME_BADGE_MINUTES`. */
  readonly resumeBadgeMinutes?: number | undefined;
  /** Speaking rate, 1 = as the voice was made; 0.5 to 2. */
  readonly speakingRate: number;
  readonly repackRules: readonly RepackRule[];
  /** Absent: `afterwards`. */
  readonly expectedShown?: ExpectedShown | undefined;
  /** True where every pack is sealed with the packer's mark before it is signed (14 CFR 65.133); absent: no seals. */
  readonly seals?: boolean | undefined;
  /** Absent: no PIN is asked for. */
  readonly pin?: PinPolicy | undefined;
  /** Absent: scanners as they come out of the box. */
  readonly scanner?: ScannerSettings | undefined;
  /** Kinds of label that end in a mod 43 check character where they are Code 39; absent: none. */
  readonly code39Check?: readonly LabelKind[] | undefined;
}

export interface Loft {
  readonly settings: LoftSettings;
  readonly people: readonly Person[];
  readonly assemblies: readonly Assembly[];
  readonly procedures: readonly Procedure[];
}

/** The procedure with this id; null when the loft has none, for example because its file was refused. */
export function procedureById(loft: Loft, id: string): Procedure | null {
  return loft.procedures.find((procedure) => procedure.id === id) ?? null;
}

/** The procedure that this assembly names, if it also applies to its model; null otherwise. */
export function procedureFor(loft: Loft, assembly: Assembly): Procedure | null {
  const procedure = procedureById(loft, assembly.procedure);
  return procedure !== null && procedure.models.includes(assembly.model) ? procedure : null;
}

/** The person with this id; null when there is none. */
export function personById(loft: Loft, id: PersonId): Person | null {
  return loft.people.find((person) => person.id === id) ?? null;
}

/** The repack rule that this assembly names; null when the settings do not hold it. */
export function repackRuleFor(loft: Loft, assembly: Assembly): RepackRule | null {
  return loft.settings.repackRules.find((rule) => rule.id === assembly.repackRule) ?? null;
}
