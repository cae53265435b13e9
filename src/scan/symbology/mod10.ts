/** The check digit of GS1 keys (GTIN, GLN, SSCC, GRAI): GS1 General Specifications 7.9. */
import { assert } from '../../domain/assert';

/** The check digit for a key without one: weights 3 and 1 from the right, up to the next ten. */
export function mod10CheckDigit(digits: string): string {
  assert(/^\d+$/.test(digits), 'a GS1 check digit is made only over digits');
  let sum = 0;
  for (let place = 1; place <= digits.length; place += 1) {
    sum += Number(digits.charAt(digits.length - place)) * (place % 2 === 1 ? 3 : 1);
  }
  return String((10 - (sum % 10)) % 10);
}

/** True when the last digit is the check digit of all before it. */
export function mod10Fits(digits: string): boolean {
  return /^\d{2,}$/.test(digits) && mod10CheckDigit(digits.slice(0, -1)) === digits.slice(-1);
}
