/** The loft around the table: its settings, people, assemblies and procedures, all checked at load. */
import type { Assembly } from './component';
import type { Person } from './person';
import type { Procedure } from './procedure';
import type { RepackRule } from './repack-rule';

export interface LoftSettings {
  readonly name: string;
  /** Where packing is done, as the log record states it (14 CFR 65.131(a)(5)). */
  readonly place: string;
  readonly table: string;
  /** Seconds within which an inspector must give a verdict after the badge scan. */
  readonly verdictSeconds: number;
  /** Speaking rate, 1 = as the voice was made; 0.5 to 2. */
  readonly speakingRate: number;
  readonly repackRules: readonly RepackRule[];
}

export interface Loft {
  readonly settings: LoftSettings;
  readonly people: readonly Person[];
  readonly assemblies: readonly Assembly[];
  readonly procedures: readonly Procedure[];
}
