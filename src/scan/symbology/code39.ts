/** The optional check character of Code 39: modulo 43 (ISO/IEC 16388, annex A). */
import { assert } from '../../domain/assert';

/** ISO/IEC 16388, table of check values: the place of a character is its value. */
const CHARACTERS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%';

/** True when every character can stand in a Code 39 symbol (without the full ASCII extension). */
export function isCode39Text(text: string): boolean {
  return text.length > 0 && [...text].every((character) => CHARACTERS.includes(character));
}

/** The check character for `text`, which must be Code 39 text. */
export function code39CheckCharacter(text: string): string {
  assert(isCode39Text(text), 'a Code 39 check is made only over Code 39 characters');
  let sum = 0;
  for (const character of text) sum += CHARACTERS.indexOf(character);
  return CHARACTERS.charAt(sum % CHARACTERS.length);
}

/** True when the last character is the check character of all before it. */
export function code39CheckFits(text: string): boolean {
  return isCode39Text(text) && text.length > 1 && code39CheckCharacter(text.slice(0, -1)) === text.slice(-1);
}
