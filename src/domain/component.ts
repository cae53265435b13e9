/** The parts of an assembly and what the loft knows of each. */
import type { PlainDate } from './plain-date';

export const COMPONENT_KINDS = ['bag', 'container', 'canopy'] as const;
export type ComponentKind = (typeof COMPONENT_KINDS)[number];

export interface Component {
  readonly kind: ComponentKind;
  /** The loft's model name; a procedure says which models it fits. */
  readonly model: string;
  readonly serial: string;
  /** Further payloads that name the same item (an old linear label beside a newer mark). */
  readonly otherMarks: readonly string[];
  readonly madeOn: PlainDate;
  readonly inServiceOn: PlainDate | null;
  /** Service life in whole years from manufacture; null where none is set (the rigger judges). */
  readonly lifeYearsFromMade: number | null;
  /** Service life in whole years from placing in service; null where none is set. */
  readonly lifeYearsFromService: number | null;
  /** Last time this component was packed; null when it never was. */
  readonly lastPackedOn: PlainDate | null;
  /** Last technical inspection; clears an overdue repack when it lies on or after the due date. */
  readonly lastInspectedOn: PlainDate | null;
  /** Open defects and outstanding work, in words; any entry stops check-in. */
  readonly outstanding: readonly string[];
}

export interface Assembly {
  readonly id: string;
  readonly name: string;
  /** The assembly's model: riggers are qualified by it, procedures apply to it. */
  readonly model: string;
  /** Type and make as the log record states it (14 CFR 65.131(a)(1)). */
  readonly typeAndMake: string;
  readonly owner: { readonly name: string; readonly address: string };
  readonly components: readonly Component[];
  readonly procedure: string;
  /** Id of the repack rule in the loft file. */
  readonly repackRule: string;
  /** Set when this assembly is being packed at another table of the loft. */
  readonly openAt: string | null;
}
