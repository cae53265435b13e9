/** Key strokes as a US keyboard makes them, for tests. */
import type { KeyStroke } from '../../../src/scan/wedge/key-character';

const SIGNS: Readonly<Record<string, string>> = {
  '-_': 'Minus',
  '=+': 'Equal',
  '[{': 'BracketLeft',
  ']}': 'BracketRight',
  '\\|': 'Backslash',
  ';:': 'Semicolon',
  '\'"': 'Quote',
  '`~': 'Backquote',
  ',<': 'Comma',
  '.>': 'Period',
  '/?': 'Slash',
  ' ': 'Space',
};
const SHIFTED_DIGITS = ')!@#$%^&*(';

function placeOf(character: string): readonly [string, boolean] {
  if (/[a-z]/i.test(character)) return [`Key${character.toUpperCase()}`, character !== character.toLowerCase()];
  if (/\d/.test(character)) return [`Digit${character}`, false];
  const digit = SHIFTED_DIGITS.indexOf(character);
  if (digit >= 0) return [`Digit${digit}`, true];
  const [pair, code] = Object.entries(SIGNS).find(([signs]) => signs.includes(character)) ?? ['', ''];
  return [code, pair.indexOf(character) === 1];
}

/** The stroke that gives this character; `key` is as the system reports it. */
export function usStroke(character: string): KeyStroke {
  const [code, shift] = placeOf(character);
  return { key: character, code, shift, ctrl: false, alt: false, meta: false, capsLock: false, repeat: false };
}
