/**
 * Tells a keyboard-style scanner from typing, by timing alone: at least four characters, each within 35 ms of the one
 * before. Pure: key strokes and times in; what was read, and what to do with the stroke, out.
 */
import { characterOf, isModifier } from './key-character';
import type { ScannerSettings } from '../../domain/scanning';
import type { KeyStroke } from './key-character';

/** Prefix and suffix are taken off a reading where they stand. */
export interface WedgeSettings extends ScannerSettings {
  /** Fewest characters of a scan. */
  readonly shortest: number;
  /** Longest time between two characters of a scan, in milliseconds. */
  readonly gapMs: number;
  /** A scan without Enter or Tab at its end is over after this pause, in milliseconds. */
  readonly pauseMs: number;
  /** How long after it happened a stroke of a scan may reach the page, in milliseconds: a busy machine hands on late. */
  readonly lateMs: number;
}

export const WEDGE_DEFAULTS: WedgeSettings = {
  prefix: '',
  suffix: '',
  keyboard: 'us',
  shortest: 4,
  gapMs: 35,
  pauseMs: 60,
  lateMs: 200,
};

export interface WedgeState {
  /** Characters so far, each within the gap of the one before. */
  readonly text: string;
  readonly lastMs: number;
  /** Digits typed while Alt is held: a character by its number. */
  readonly altDigits: string;
}

/** A key stroke, and when it was made, in milliseconds of any steady clock. */
export interface TimedStroke {
  readonly stroke: KeyStroke;
  readonly timeMs: number;
}

export const WEDGE_IDLE: WedgeState = { text: '', lastMs: 0, altDigits: '' };

export interface WedgeStep {
  readonly state: WedgeState;
  readonly reading: string | null;
  /** The stroke must not reach the page now. */
  readonly swallow: boolean;
  /** All strokes swallowed so far were typing after all: give them back to the page, before this one. */
  readonly release: boolean;
}

/** More than any label or printed card holds; a longer burst is cut off and will be refused as too long. */
const LONGEST = 2_000;
/** Stands for a key inside a scan that means no character, so that the reading is refused and not merely shorter. */
const LOST = '\ufffd';

/** True once the characters so far can only come from a scanner. */
export function isScan(state: WedgeState, settings: WedgeSettings): boolean {
  return state.text.length >= settings.shortest;
}

/**
 * The reading without what the scanner puts around it. A second prefix, or a suffix before the end, means that two
 * scanners have typed into one another: what came of it must be refused, not guessed at.
 */
function trimmed(text: string, { prefix, suffix }: WedgeSettings): string {
  const start = prefix !== '' && text.startsWith(prefix) ? prefix.length : 0;
  const end = suffix !== '' && text.endsWith(suffix) ? text.length - suffix.length : text.length;
  const bare = text.slice(start, Math.max(start, end));
  const isMixed = [prefix, suffix].some((mark) => mark.length > 1 && bare.includes(mark));
  return isMixed ? bare + LOST : bare;
}

/** A number typed with Alt held becomes its character once Alt is up. */
function settled(state: WedgeState): WedgeState {
  if (state.altDigits === '') return state;
  const code = Number(state.altDigits);
  return { ...state, text: state.text + (code < 256 ? String.fromCharCode(code) : LOST), altDigits: '' };
}

function finished(state: WedgeState, settings: WedgeSettings): WedgeStep {
  const reading = trimmed(settled(state).text, settings);
  return { state: WEDGE_IDLE, reading, swallow: true, release: false };
}

function isTerminator(stroke: KeyStroke, character: string | null): boolean {
  return stroke.key === 'Enter' || stroke.key === 'Tab' || character === '\r' || character === '\n';
}

/** What could begin a scan: any visible character, or FNC1 and the like; never a blank, which works buttons. */
function canBegin(character: string, stroke: KeyStroke): boolean {
  return character !== ' ' && (!stroke.ctrl || character === '\u001d' || character === '\u001e');
}

function begun({ stroke, timeMs }: TimedStroke, character: string | null): Pick<WedgeStep, 'state' | 'swallow'> {
  if (character === null || stroke.repeat || !canBegin(character, stroke)) return { state: WEDGE_IDLE, swallow: false };
  return { state: { text: character, lastMs: timeMs, altDigits: '' }, swallow: true };
}

function continued(state: WedgeState, { stroke, timeMs }: TimedStroke, character: string | null): WedgeState {
  const digit = stroke.alt && !stroke.ctrl ? /^(?:Numpad|Digit)(\d)$/.exec(stroke.code)?.[1] : undefined;
  if (digit !== undefined) return { ...state, altDigits: state.altDigits + digit, lastMs: timeMs };
  const before = settled(state);
  const text = before.text.length < LONGEST ? before.text + (character ?? LOST) : before.text;
  return { text, lastMs: timeMs, altDigits: '' };
}

/** One key stroke. */
export function wedgeStep(state: WedgeState, timed: TimedStroke, settings: WedgeSettings): WedgeStep {
  const { stroke, timeMs } = timed;
  const inTime = state.text !== '' && timeMs - state.lastMs < settings.gapMs && !stroke.repeat;
  const scan = isScan(state, settings);
  if (isModifier(stroke)) {
    return { state: inTime ? { ...state, lastMs: timeMs } : state, reading: null, swallow: false, release: false };
  }
  const character = characterOf(stroke, settings.keyboard);
  if (isTerminator(stroke, character)) {
    if (scan && timeMs - state.lastMs < settings.pauseMs) return finished(state, settings);
    // The pause was over before anybody noticed: the scan counts, and this stroke is somebody's own.
    if (scan) return { ...finished(state, settings), swallow: false };
    return { state: WEDGE_IDLE, reading: null, swallow: false, release: state.text !== '' };
  }
  // Before it is a scan, a key without a character (an arrow, Escape) says that it is typing.
  if (inTime && (scan || character !== null || stroke.alt)) {
    return { state: continued(state, timed, character), reading: null, swallow: true, release: false };
  }
  const next = begun(timed, character);
  if (scan) return { ...finished(state, settings), ...next };
  return { ...next, reading: null, release: state.text !== '' };
}

/** No stroke has come until now: a scan is over after its pause, and fewer characters were typing. */
export function wedgePause(state: WedgeState, timeMs: number, settings: WedgeSettings): WedgeStep {
  const waited = timeMs - state.lastMs;
  if (state.text === '') return { state, reading: null, swallow: false, release: false };
  if (isScan(state, settings)) {
    if (waited >= settings.pauseMs) return finished(state, settings);
  } else if (waited >= settings.gapMs) {
    return { state: WEDGE_IDLE, reading: null, swallow: false, release: true };
  }
  return { state, reading: null, swallow: false, release: false };
}
