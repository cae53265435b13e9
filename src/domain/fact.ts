/** Facts: immutable things that happened in one pack. Their order is the journal. */
import type { BadgeDigest, FactSeq, PackId, PersonId, Serial, SightingId } from './ids';
import type { CheckLine } from './check-line';
import type { Channel } from './command';
import type { Assembly, ComponentKind } from './component/component';
import type { Instant } from './instant';
import type { LogRecord } from './log-record';
import type { PersonInForce } from './person';
import type { PinPolicy } from './pin';
import type { PlainDate } from './plain-date';
import type { CountNoun, Procedure } from './procedure';
import type { Quantity } from './quantity';
import type { RepackRule } from './component/repack-rule';
import type { Reader } from './sighting';
import type { Side } from './stow/stow-plan';

export type { CheckLine } from './check-line';

/**
 * Which rules a pack was recorded under, as `packOpened` says; absent there is 1. More is demanded of later ones, and
 * what earlier ones left out stays readable. 2: badges and scans stand as digests, and facts say more (2026-11-29).
 */
export const EDITION = 2;

/** The stream of facts that belong to no pack: restoring, for example. Never an open pack. */
export const LOFT_STREAM = 'loft';

/** Why a pack was stopped, in the order in which the causes are offered. */
export const STOP_CAUSES = ['damage', 'contamination', 'wrongPart', 'lostCount', 'checks', 'other'] as const;
export type StopCause = (typeof STOP_CAUSES)[number];

/** The most characters that an inspector can write beside a finding. */
export const NOTE_MAX = 200;

/** Why a pack is handed over, in the order in which the reasons are offered. */
export const HAND_OVER_REASONS = ['endOfShift', 'calledAway', 'unwell', 'relieved', 'other'] as const;
export type HandOverReason = (typeof HAND_OVER_REASONS)[number];

/** When what held at check-in was checked again. */
export const RECHECK_OCCASIONS = ['resumed', 'restarted', 'handedOver', 'reopened', 'signed', 'filesChanged'] as const;
export type RecheckOccasion = (typeof RECHECK_OCCASIONS)[number];

export type FactBody =
  | {
      readonly kind: 'packOpened';
      readonly packer: PersonId;
      /** SHA-256 of the badge's identifier, in hex; since edition 2. */
      readonly badgeDigest?: BadgeDigest | undefined;
      /** The identifier itself, in facts of edition 1. */
      readonly badge?: string | undefined;
      readonly table: string;
      /** Absent: 1. */
      readonly edition?: number | undefined;
      /** The latest day in the journal, where the clock stood before it: dates are judged by it too. */
      readonly journalDay?: PlainDate | undefined;
    }
  | {
      readonly kind: 'componentIdentified';
      readonly component: ComponentKind;
      readonly serial: Serial;
      /** SHA-256 of what the reader delivered, in hex; since edition 2. */
      readonly payloadDigest?: string | undefined;
      /** What the reader delivered, in facts of edition 1. */
      readonly payload?: string | undefined;
      readonly reader: Reader;
    }
  /** Any scan or badge that was turned away: also the packer's own badge at a hold. */
  | {
      readonly kind: 'scanRefused';
      readonly reason: string;
      readonly detail: string;
      /** As in `componentIdentified`. */
      readonly payloadDigest?: string | undefined;
      readonly payload?: string | undefined;
      /** Where it was tried: `identify`, `hold:<id>`, `sign`, ... */
      readonly where: string;
    }
  | {
      readonly kind: 'assemblyAgreed';
      readonly assembly: string;
      readonly procedure: string;
      readonly revision: string;
      /** Of the procedure as it was then (`Procedure.digest`): from here on the pack follows exactly that one. */
      readonly digest?: string | undefined;
    }
  | { readonly kind: 'checkInPassed'; readonly checks: readonly CheckLine[] }
  | { readonly kind: 'checkInFailed'; readonly checks: readonly CheckLine[] }
  /** One component inspected by the packer before anything is packed (14 CFR 65.129(b), (c)). */
  | {
      readonly kind: 'inspected';
      readonly component: ComponentKind;
      readonly serial: Serial;
      readonly result: 'good' | 'finding';
      /** What was found, in words; null exactly where the result is good. */
      readonly finding: string | null;
      readonly channel: Channel;
    }
  /** The same questions again, with whoever has released holds: a pack that fails one is stopped until it passes. */
  | { readonly kind: 'recheckPassed'; readonly occasion: RecheckOccasion; readonly checks: readonly CheckLine[] }
  | { readonly kind: 'recheckFailed'; readonly occasion: RecheckOccasion; readonly checks: readonly CheckLine[] }
  | { readonly kind: 'toolIssued'; readonly tool: string; readonly count: number }
  | { readonly kind: 'stageConfirmed'; readonly stage: string; readonly channel: Channel }
  | { readonly kind: 'counted'; readonly stage: string; readonly noun: CountNoun; readonly count: number }
  /** `count` more stows; `total` after them; `lastSide` is the side of the last of them. */
  | {
      readonly kind: 'stowed';
      readonly stage: string;
      readonly count: number;
      readonly total: number;
      readonly lastSide: Side;
    }
  | {
      readonly kind: 'measured';
      readonly stage: string;
      readonly value: Quantity;
      readonly expected: Quantity;
      /** Measured minus expected, in the unit of `expected`. */
      readonly deviation: number;
      /** False: the stage stays open. Kept, because it was affirmed and happened. */
      readonly within: boolean;
    }
  | { readonly kind: 'itemPlaced'; readonly stage: string | null; readonly item: string }
  | { readonly kind: 'itemRemoved'; readonly stage: string | null; readonly item: string }
  | { readonly kind: 'inspectorCalled'; readonly stage: string }
  | {
      readonly kind: 'inspectorPresent';
      readonly hold: string;
      readonly inspector: PersonId;
      readonly sighting: SightingId;
      /** The PIN was given too. */
      readonly pin?: true | undefined;
    }
  /** The time for a verdict ran out: the badge must be scanned again. */
  | { readonly kind: 'verdictLapsed'; readonly hold: string; readonly inspector: PersonId }
  | {
      readonly kind: 'holdReleased';
      readonly hold: string;
      readonly inspector: PersonId;
      readonly sighting: SightingId;
      readonly channel: Channel;
    }
  | {
      readonly kind: 'holdReturned';
      readonly hold: string;
      readonly inspector: PersonId;
      readonly sighting: SightingId;
      /** Id of one of the hold's own findings, `point:<n>` for its n-th inspection point, `other`, or `damage`. */
      readonly finding: string;
      /** What the inspector wrote beside "other". */
      readonly note?: string | undefined;
      readonly backTo: string;
      readonly channel: Channel;
    }
  /** Takes back the fact with this sequence number. */
  | { readonly kind: 'corrected'; readonly fact: FactSeq }
  | { readonly kind: 'stoodBy' }
  /** `sighting`: the packer's badge, wanted after a long break. */
  | { readonly kind: 'resumed'; readonly packer: PersonId; readonly sighting?: SightingId | undefined }
  | {
      readonly kind: 'handedOver';
      readonly from: PersonId;
      readonly to: PersonId;
      readonly sighting: SightingId;
      /** The badge of whoever leaves, or of the lead instead; this and the next are absent only in edition 1. */
      readonly fromSighting?: SightingId | undefined;
      readonly reason?: HandOverReason | undefined;
      /** The last released hold, which the new packer has looked back at; null where none is released. */
      readonly lookedBack?: string | null | undefined;
      /** Whose badge stood in, where it was not that of `from`. */
      readonly lead?: PersonId | undefined;
    }
  /** The kiosk came back after a reload, crash or power cut. */
  | {
      readonly kind: 'restarted';
      readonly journalDay?: PlainDate | undefined;
      /** After a long break: the pack stands by until its packer scans a badge. */
      readonly standsBy?: true | undefined;
    }
  /** The people file in force from here on: without it nobody could tell later who was allowed to do what. */
  | { readonly kind: 'peopleInForce'; readonly people: readonly PersonInForce[] }
  /** What the loft's files say of this assembly from here on, as the pack is judged by it. */
  | {
      readonly kind: 'procedureInForce';
      readonly assembly: Assembly;
      /** Null where the loft has no usable procedure, or no repack rule, for the assembly. */
      readonly procedure: Procedure | null;
      readonly rule: RepackRule | null;
      readonly place: string;
      readonly verdictSeconds: number;
      /** Minutes of a break after which going on wants a badge; absent in earlier facts. */
      readonly resumeBadgeMinutes?: number | undefined;
      /** When a PIN had to be given; absent for never. */
      readonly pin?: PinPolicy | undefined;
      /** Whether packs are sealed; absent for no. */
      readonly seals?: boolean | undefined;
    }
  /** The clock did not go on from `from` as time did, but stood at `to`: it was set, or the computer slept. */
  | {
      readonly kind: 'clockJumped';
      readonly from: Instant;
      readonly to: Instant;
      /** The offsets, where the zone's changed: of a zone that was set, or of daylight saving in one that was not. */
      readonly zoneFrom?: string | undefined;
      readonly zoneTo?: string | undefined;
      readonly daylightSaving?: true | undefined;
    }
  /** A line of tools counted before the container is closed over everything. */
  | { readonly kind: 'toolAccounted'; readonly tool: string; readonly count: number }
  /** Temporary items, by id: each that is out was seen in the tray. Before closing, and again before the signature. */
  | {
      readonly kind: 'itemsAccounted';
      readonly before: 'closing' | 'signature';
      readonly out: readonly string[];
      readonly inside: readonly string[];
      readonly channel: Channel;
    }
  /** A line of tools counted once more, when all stages are done. */
  | { readonly kind: 'toolReturned'; readonly tool: string; readonly count: number }
  /** The packer goes back: everything from that stage on is done again, holds included. */
  | { readonly kind: 'reopened'; readonly backTo: string; readonly channel: Channel }
  | {
      readonly kind: 'signed';
      readonly packer: PersonId;
      readonly sighting: SightingId;
      readonly record: LogRecord;
      /** The PIN was given too. */
      readonly pin?: true | undefined;
      /** Absent in what earlier versions stored: there the signature ended the pack. */
      readonly awaits?: 'finalHold' | undefined;
    }
  /** The data card lies in its pocket. */
  | { readonly kind: 'cardPlaced'; readonly channel: Channel }
  /** The end of a sound pack: `signed` is the number of the fact that was signed, `inspector` released the final hold. */
  | { readonly kind: 'packClosed'; readonly signed: FactSeq; readonly hold: string; readonly inspector: PersonId }
  /**
   * A whole journal was put back from a copy into an empty one, by somebody who may: the first fact behind what was put
   * back, in `LOFT_STREAM`, with the people file in force right behind it.
   */
  | {
      readonly kind: 'restored';
      readonly by: PersonId;
      readonly sighting: SightingId;
      /** Facts in the copy, and the root of the journal over them. */
      readonly size: number;
      readonly root: string;
      /** The PIN was given too. */
      readonly pin?: true | undefined;
      /** The newest seal of this kiosk, where it knows of more than the copy holds: what lies between is lost. */
      readonly behind?: { readonly size: number; readonly root: string } | undefined;
    }
  /** The tag that the `stopped` fact with the number `tag` hung on this component is off; kept in `LOFT_STREAM`. */
  | {
      readonly kind: 'tagCleared';
      readonly tag: FactSeq;
      readonly component: ComponentKind;
      readonly serial: Serial;
      readonly inspector: PersonId;
      readonly sighting: SightingId;
      /** The PIN was given too. */
      readonly pin?: true | undefined;
      /** What was found and done, in words. */
      readonly finding: string;
      readonly channel: Channel;
    }
  /** Stopped before the end; what it names is tagged and not fit for use. */
  | {
      readonly kind: 'stopped';
      readonly reason: string;
      /** Absent only in facts of the first edition. */
      readonly cause?: StopCause | undefined;
      /** The component that is tagged; absent where it is the whole assembly. */
      readonly component?: ComponentKind | undefined;
    };

export type FactKind = FactBody['kind'];

/** Whether nothing can follow this fact in its pack. */
export function endsPack(body: FactBody): boolean {
  if (body.kind === 'signed') return body.awaits === undefined;
  return body.kind === 'packClosed' || body.kind === 'stopped';
}

/** A fact before it is stored. */
export interface FactDraft {
  readonly pack: PackId;
  readonly at: Instant;
  /** The person whose act it was; null for the kiosk itself. */
  readonly by: PersonId | null;
  readonly body: FactBody;
}

/** A fact as it stands in the journal. `seq` counts from 0 over the whole kiosk. */
export interface Fact extends FactDraft {
  readonly seq: FactSeq;
}
