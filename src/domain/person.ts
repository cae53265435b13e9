/** People of the loft and what each may do. */
import type { PlainDate } from './plain-date';

export const ROLES = ['rigger', 'inspector', 'lead', 'trainee', 'clerk'] as const;
export type Role = (typeof ROLES)[number];

/** Classes of hold; the procedure says which class each hold needs. */
export const HOLD_CLASSES = ['in-process', 'closing', 'final'] as const;
export type HoldClass = (typeof HOLD_CLASSES)[number];

export interface Person {
  readonly id: string;
  readonly name: string;
  /** Certificate number as the log record states it (14 CFR 65.131(c)); null for those who sign nothing. */
  readonly certificate: string | null;
  readonly roles: readonly Role[];
  /** Assembly models this person may pack (rigger) or inspect (inspector). */
  readonly models: readonly string[];
  readonly holdClasses: readonly HoldClass[];
  readonly validFrom: PlainDate;
  /** Last day on which the qualification counts. */
  readonly validTo: PlainDate;
  readonly revoked: boolean;
  /** Badge identifiers (as `BadgeId`); a person may hold more than one. */
  readonly badges: readonly string[];
}
