/** The entry for the parachute's own book (14 CFR 65.131(a) and (c) name what must stand in it). */
import type { Instant } from './instant';
import type { PlainDate } from './plain-date';

/** One packer's share of the stages. */
export interface StagesBy {
  readonly name: string;
  readonly certificate: string;
  readonly stages: string;
}

export interface LogRecord {
  readonly pack: string;
  readonly assembly: string;
  readonly typeAndMake: string;
  readonly serials: readonly { readonly kind: string; readonly model: string; readonly serial: string }[];
  readonly owner: { readonly name: string; readonly address: string };
  /** Kind and extent of work, with procedure and revision. */
  readonly work: string;
  readonly procedure: string;
  readonly revision: string;
  readonly packedOn: PlainDate;
  readonly signedAt: Instant;
  readonly place: string;
  /** Everyone who packed, in order; the last one signs. */
  readonly packers: readonly { readonly name: string; readonly certificate: string }[];
  /**
   * Who was packing when each stage was last completed, by stage number: "1 to 9, 14". Absent in records of the first
   * edition.
   */
  readonly stagesBy?: readonly StagesBy[] | undefined;
  /** One sentence for each time that the clock jumped during the pack; absent where it did not. */
  readonly clock?: readonly string[] | undefined;
  readonly holds: readonly {
    readonly hold: string;
    readonly title: string;
    readonly inspector: string;
    readonly certificate: string;
    readonly at: Instant;
  }[];
  readonly values: readonly { readonly stage: string; readonly what: string; readonly value: string }[];
  /** Stages that the packer opened again; absent for none. */
  readonly reopened?:
    readonly { readonly stage: string; readonly name: string; readonly certificate: string }[] | undefined;
  /** Findings of returns and what was done; empty means "none found". */
  readonly defects: readonly string[];
  readonly tools: readonly { readonly name: string; readonly issued: number; readonly returned: number }[];
  readonly temporaryItems: readonly { readonly name: string; readonly placed: number; readonly removed: number }[];
  readonly dropTests: string;
  /**
   * The last day on which this packing may be used, by the boundary of the rule. Records of earlier versions hold the
   * packing date plus the interval here, which an exclusive rule counts as overdue already.
   */
  readonly nextDue: PlainDate;
  readonly repackRule: string;
  readonly notice: string;
}
