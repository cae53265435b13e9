/** The entry for the parachute's own book (14 CFR 65.131(a) and (c) name what must stand in it). */
import type { PackId, Serial } from './ids';
import type { Instant } from './instant';
import type { PlainDate } from './plain-date';

/** One packer's share of the stages. */
export interface StagesBy {
  readonly name: string;
  readonly certificate: string;
  readonly stages: string;
}

/** Put together and packed for the first time as this assembly, or looked over and packed again. */
export const WORK_KINDS = ['assembleAndPack', 'inspectAndRepack'] as const;
export type WorkKind = (typeof WORK_KINDS)[number];

/** The two papers of a record: the card in the parachute's pocket, and the page of its book. */
export const PAPERS = ['dataCard', 'logBookPage'] as const;
export type Paper = (typeof PAPERS)[number];

export interface LogRecord {
  readonly pack: PackId;
  readonly assembly: string;
  readonly typeAndMake: string;
  readonly serials: readonly { readonly kind: string; readonly model: string; readonly serial: Serial }[];
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
  /** Findings of returns and values outside their band, and what was done: put right in process. */
  readonly defects: readonly string[];
  /**
   * Defects of the material that the inspection before packing found (14 CFR 65.131(c)); null where nobody was asked,
   * empty where somebody was and found none. Absent in records of the first edition.
   */
  readonly materialDefects?: readonly string[] | null | undefined;
  /** Absent in records of the first edition. */
  readonly workKind?: WorkKind | undefined;
  /** The packer's seal mark (14 CFR 65.133); absent where the loft uses no seals. */
  readonly sealMark?: string | undefined;
  /** Uses of each component as the books had them; null where they do not say. Absent in records of the first edition. */
  readonly uses?: readonly { readonly serial: Serial; readonly uses: number | null }[] | undefined;
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
