/**
 * From a key stroke to the character that a scanner meant by it, whatever keyboard layout the system has. A scanner
 * acts as a US keyboard, as scanners come; where the system's layout differs, the place of the key tells what was meant.
 * A scanner that was set to the system's layout means the key itself.
 */
import type { ScannerKeyboard } from '../../domain/scanning';

/** What a `keydown` event says, as far as it matters here. */
export interface KeyStroke {
  readonly key: string;
  /** The place of the key on the board (UI Events KeyboardEvent code values); empty where unknown. */
  readonly code: string;
  readonly shift: boolean;
  readonly ctrl: boolean;
  readonly alt: boolean;
  readonly meta: boolean;
  readonly capsLock: boolean;
  /** The key is held down and repeats: a hand, never a scanner. */
  readonly repeat: boolean;
}

const MODIFIERS = ['Shift', 'Control', 'Alt', 'AltGraph', 'Meta', 'CapsLock', 'NumLock'];

/** True for keys that only change what others mean. */
export function isModifier(stroke: KeyStroke): boolean {
  return MODIFIERS.includes(stroke.key);
}

/** US layout: plain and shifted character of each place that is no letter, digit or number pad key. */
const US_SIGNS: Readonly<Record<string, readonly [string, string]>> = {
  Minus: ['-', '_'],
  Equal: ['=', '+'],
  BracketLeft: ['[', '{'],
  BracketRight: [']', '}'],
  Backslash: ['\\', '|'],
  Semicolon: [';', ':'],
  Quote: ["'", '"'],
  Backquote: ['`', '~'],
  Comma: [',', '<'],
  Period: ['.', '>'],
  Slash: ['/', '?'],
  Space: [' ', ' '],
};
const US_DIGITS_SHIFTED = ')!@#$%^&*(';

function usPair(code: string): readonly [string, string] | null {
  const letter = /^Key([A-Z])$/.exec(code)?.[1];
  if (letter !== undefined) return [letter.toLowerCase(), letter];
  const digit = /^Digit(\d)$/.exec(code)?.[1];
  if (digit !== undefined) return [digit, US_DIGITS_SHIFTED.charAt(Number(digit))];
  return US_SIGNS[code] ?? null;
}

/** The printable character before control and caps lock are considered; null for keys that print nothing. */
function printed(stroke: KeyStroke, keyboard: ScannerKeyboard): string | null {
  const typed = [...stroke.key].length === 1 ? stroke.key : null;
  if (keyboard === 'host') return typed;
  const pair = usPair(stroke.code);
  if (pair === null) return typed;
  // Where the system agrees with the US layout its own word is best: it knows about shift in every case.
  if (typed !== null && pair.includes(typed)) return typed;
  return stroke.shift ? pair[1] : pair[0];
}

/** Caps lock turns a scanner's letters around; a scanner does not mean that. */
function withoutCapsLock(character: string, capsLock: boolean): string {
  if (!capsLock) return character;
  const upper = character.toUpperCase();
  return character === upper ? character.toLowerCase() : upper;
}

/**
 * The character meant, or null. With control held it is the control character of ISO/IEC 646 in that column: scanners
 * send GS as Ctrl+], RS as Ctrl+^ and EOT as Ctrl+D.
 */
export function characterOf(stroke: KeyStroke, keyboard: ScannerKeyboard): string | null {
  if (stroke.meta) return null;
  const character = printed(stroke, keyboard);
  if (character === null || (stroke.alt && !stroke.ctrl)) return null;
  if (!stroke.ctrl || stroke.alt) return withoutCapsLock(character, stroke.capsLock);
  const code = character.toUpperCase().charCodeAt(0);
  // Ctrl+6 is how a US keyboard without shift gives RS.
  if (character === '6') return '\u001e';
  return code >= 64 && code <= 95 ? String.fromCharCode(code - 64) : null;
}
