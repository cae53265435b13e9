/**
 * Decides when a code has truly been read. One frame proves nothing: two different frames must agree, three for
 * Code 39, which has no check character of its own (measured under glare: 3 of 225 Code 39 readings of the first
 * reader were wrong). A linear code must be read through two different views as well: what one view makes of a label
 * held still it makes again of the next frame. Only the deciding reader counts; the first reader can only object.
 */
import { isLinear, type Symbology } from '../sighting';
import { looksLikeCard } from '../symbology/card';
import type { Pass } from './frame';

/** What both readers made of one frame. */
export interface Observation {
  /** When the frame was taken, in milliseconds of any steady clock. */
  readonly timeMs: number;
  /** The first reader's payload; null when it read nothing. */
  readonly first: string | null;
  readonly second: readonly SeenCode[];
  /** The view in which the deciding reader read this; null when it read nothing. */
  readonly pass: Pass | null;
}

export interface SeenCode {
  readonly payload: string;
  readonly symbology: Symbology;
  /** Distance from the picture's middle, as part of the picture's height. */
  readonly offCentre: number;
}

/** A code that was seen lately: in how many frames it agreed, and whether it has been delivered. */
interface Track {
  readonly code: SeenCode;
  readonly frames: number;
  /** The views in which those frames showed it, each once. */
  readonly passes: readonly Pass[];
  /** When the deciding reader last read it. */
  readonly readMs: number;
  /** When either reader last saw it. */
  readonly viewMs: number;
  /** Frames since then that were looked at and did not show it. */
  readonly missed: number;
  readonly delivered: boolean;
}

export type AgreementState = readonly Track[];

export interface AgreementStep {
  readonly state: AgreementState;
  readonly accepted: SeenCode | null;
  /** True while it is not clear which code is meant: nothing is accepted then. */
  readonly several: boolean;
}

export const NOTHING_SEEN: AgreementState = [];

/** A code must be out of view this long before it counts as scanned anew. */
const AWAY_MS = 1200;
/** And this many frames must have been looked at: a reader that stalls has not seen the label go. */
const AWAY_FRAMES = 2;
/** No stall lasts this long: the scanner was closed, and what it sees next is a scan of its own. */
const LONGEST_STALL_MS = 5000;
/** Frames agree only if they lie this close; older ones are evidence of nothing. */
const AGREE_WITHIN_MS = 1000;
/** Another code seen this lately is still taken to be in view. A cycle of views takes about this long. */
const BESIDE_MS = 400;
/**
 * Aimed at, among several: the code lies this near the picture's middle, in parts of its height, and at most at this
 * part of the distance of any other code. On the printed sheets no neighbour of the code in the middle is so near.
 */
const AIMED_WITHIN = 0.16;
const AIMED_RATIO = 0.5;
/** Two codes no farther apart than this may be one label read in two ways, and neither is believed. */
const ONE_PLACE = 0.02;

function framesNeeded(symbology: Symbology): number {
  return symbology === 'code39' ? 3 : 2;
}

function hasAgreed({ code: { symbology }, frames, passes }: Track): boolean {
  return frames >= framesNeeded(symbology) && (!isLinear(symbology) || passes.length >= 2);
}

/** How readers hand on FNC1. */
const FNC1 = '\u001d';

/**
 * A payload stripped of what the two readers tell differently: the GS1 mark in front (an AIM identifier from one, a
 * bare FNC1 or nothing from the other) and a stray FNC1 at the end.
 */
function comparable(payload: string): string {
  const bare = payload.replace(/^\](C1|d2|Q3)/, '');
  const start = bare.startsWith(FNC1) ? 1 : 0;
  return bare.slice(start, bare.endsWith(FNC1) ? -1 : undefined);
}

/** The same content in two symbols (an old linear label beside a newer mark) is one code. */
function isSame(left: SeenCode, right: SeenCode): boolean {
  return left.payload === right.payload;
}

/** The first reader read something on this frame that the deciding reader did read otherwise. */
function disagrees({ first, second }: Observation): boolean {
  if (first === null || second.length === 0) return false;
  return !second.some((code) => comparable(code.payload) === comparable(first));
}

type Evidence = Pick<Track, 'frames' | 'passes'>;
const NO_EVIDENCE: Evidence = { frames: 0, passes: [] };

function withFrame({ frames, passes }: Evidence, pass: Pass | null): Evidence {
  const isNew = pass !== null && !passes.includes(pass);
  return { frames: frames + 1, passes: isNew ? [...passes, pass] : passes };
}

/** What this frame says of a code that was seen before. */
function followed(track: Track, observation: Observation, startOver: boolean): Track {
  const { timeMs, first, second, pass } = observation;
  const seen = second.find((code) => isSame(code, track.code));
  if (seen === undefined) {
    // What only the first reader sees is still in view, so it will not be scanned anew; but it is no evidence.
    const inView = first !== null && comparable(first) === comparable(track.code.payload);
    const view = inView ? { viewMs: timeMs, missed: 0 } : { missed: track.missed + 1 };
    return { ...track, ...(startOver ? NO_EVIDENCE : {}), ...view };
  }
  const earlier = timeMs - track.readMs <= AGREE_WITHIN_MS ? track : NO_EVIDENCE;
  const evidence = startOver ? NO_EVIDENCE : withFrame(earlier, pass);
  return { ...track, ...evidence, code: seen, readMs: timeMs, viewMs: timeMs, missed: 0 };
}

function isAway({ viewMs, missed }: Track, timeMs: number): boolean {
  const awayMs = timeMs - viewMs;
  return awayMs > LONGEST_STALL_MS || (awayMs > AWAY_MS && missed >= AWAY_FRAMES);
}

/** Brings tracks up to date with what this frame shows; a disagreement starts all evidence over. */
function follow(state: AgreementState, observation: Observation): AgreementState {
  const { timeMs, second, pass } = observation;
  const startOver = disagrees(observation);
  const kept = state.filter((track) => !isAway(track, timeMs)).map((track) => followed(track, observation, startOver));
  const added = second
    .filter((code, index) => second.findIndex((other) => isSame(other, code)) === index)
    .filter((code) => !kept.some((track) => isSame(track.code, code)))
    .map((code): Track => {
      const evidence = startOver ? NO_EVIDENCE : withFrame(NO_EVIDENCE, pass);
      return { ...evidence, code, readMs: timeMs, viewMs: timeMs, missed: 0, delivered: false };
    });
  return [...kept, ...added];
}

function isAimedAt(code: SeenCode, other: SeenCode): boolean {
  const isNearer = code.offCentre <= other.offCentre * AIMED_RATIO;
  return isNearer && other.offCentre - code.offCentre > ONE_PLACE;
}

/**
 * True when it is not clear that this code is meant: others are in view and it is not aimed at. The codes of command
 * cards stand on a sheet among others, of which some may not have been read, so they must be aimed at in any case.
 */
function isUnclear({ code }: Track, state: AgreementState, timeMs: number): boolean {
  const others = state.filter(
    (other) => comparable(other.code.payload) !== comparable(code.payload) && timeMs - other.viewMs <= BESIDE_MS,
  );
  if (others.length === 0 && !looksLikeCard(code.payload)) return false;
  return code.offCentre > AIMED_WITHIN || others.some((other) => !isAimedAt(code, other.code));
}

/** One more frame. At most one code is accepted by it, and each only once while it stays in view. */
export function agreementStep(state: AgreementState, observation: Observation): AgreementStep {
  const tracks = follow(state, observation);
  const { timeMs } = observation;
  const ripe = tracks.filter((track) => track.readMs === timeMs && !track.delivered && hasAgreed(track));
  const chosen = ripe.find((track) => !isUnclear(track, tracks, timeMs)) ?? null;
  const next = tracks.map((track) => (track === chosen ? { ...track, delivered: true } : track));
  return { state: next, accepted: chosen?.code ?? null, several: chosen === null && ripe.length > 0 };
}
