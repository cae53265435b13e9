/** The check character of a badge: ISO 7064 MOD 37,2, which catches every wrong and every swapped neighbouring character. */
import { assert } from '../../domain/assert';

/** ISO 7064, MOD 37,2: the alphanumeric set, and `*` for the check value 36, which stands only in the last place. */
const CHARACTERS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*';
const MODULUS = 37;
const RADIX = 2;

/**
 * The check character for a string of digits and capital letters.
 * A prime modulus with weights 2^k: a change of one character, or a swap of two neighbours, moves the sum by a
 * product of numbers that are all smaller than 37 and not zero, so the sum never stays right (ISO 7064, pure systems).
 */
export function mod37CheckCharacter(body: string): string {
  let carried = 0;
  for (const character of body) {
    const value = CHARACTERS.indexOf(character);
    assert(value >= 0 && value < MODULUS - 1, 'a check is made only over digits and capital letters');
    carried = ((carried + value) * RADIX) % MODULUS;
  }
  return CHARACTERS.charAt((MODULUS + 1 - carried) % MODULUS);
}

/** True when the last character of `text` is the check character of all before it. */
export function mod37Fits(text: string): boolean {
  const body = text.slice(0, -1);
  return /^[0-9A-Z]+$/.test(body) && mod37CheckCharacter(body) === text.slice(-1);
}
