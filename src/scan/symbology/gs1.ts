/** GS1 element strings: application identifiers and their values, as FNC1-separated data carries them. */
import { assert } from '../../domain/assert';
import { ok, refused } from '../../domain/result';
import type { Result } from '../../domain/result';
import { identifierAt } from './gs1-table';
import type { ApplicationIdentifier } from './gs1-table';
import { mod10Fits } from './mod10';

/** How readers hand on FNC1 after the first place (GS1 General Specifications 7.8.3). */
export const FNC1 = '\u001d';

export interface Element {
  readonly ai: string;
  readonly value: string;
}

export type Gs1Fault = 'gs1-empty' | 'gs1-unknown-identifier' | 'gs1-length' | 'gs1-character' | 'check-wrong';

/** GS1 AI encodable character set 82 (GS1 General Specifications figure 7.11-1, after ISO/IEC 646). */
const SET_82 = /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]*$/;

const CHECK_WRONG = 'The check digit does not fit. Scan it again.';

function dateFits(yymmdd: string): boolean {
  const month = Number(yymmdd.slice(2, 4));
  const day = Number(yymmdd.slice(4, 6));
  return month >= 1 && month <= 12 && day <= 31;
}

/** Checks one value against its row; null when it fits. */
function faultOf(entry: ApplicationIdentifier, value: string): Result<never, Gs1Fault> | null {
  const digits = value.slice(0, entry.digits);
  const text = value.slice(entry.digits);
  if (digits.length < entry.digits || text.length < entry.textMin || text.length > entry.textMax) {
    return refused('gs1-length', `The label's element (${entry.ai}) has a wrong length. Scan it again.`);
  }
  if (!/^\d*$/.test(digits) || !SET_82.test(text) || (entry.checkFrom > 0 && digits.charAt(0) !== '0')) {
    return refused('gs1-character', `The label's element (${entry.ai}) has a character that cannot be there.`);
  }
  if (entry.date && !dateFits(digits)) {
    return refused('gs1-character', `The label's element (${entry.ai}) is no date. Scan it again.`);
  }
  const checked = digits.slice(entry.checkFrom, entry.checkFrom + entry.checked);
  return entry.checked > 0 && !mod10Fits(checked) ? refused('check-wrong', CHECK_WRONG) : null;
}

/**
 * Reads GS1 data, without the FNC1 of first place. Elements of predefined length run on; all others end at FNC1 or
 * at the end; a superfluous FNC1 is tolerated (GS1 General Specifications 7.8.6).
 */
export function parseElementString(data: string): Result<readonly Element[], Gs1Fault> {
  const elements: Element[] = [];
  let rest = data;
  while (rest.length > 0) {
    const entry = identifierAt(rest);
    if (entry === null) {
      return refused('gs1-unknown-identifier', 'The label has an element that this loft does not know.');
    }
    rest = rest.slice(entry.ai.length);
    const separator = rest.indexOf(FNC1);
    const end = separator < 0 ? rest.length : separator;
    const value = rest.slice(0, entry.predefined ? Math.min(entry.digits, end) : end);
    const fault = faultOf(entry, value);
    if (fault !== null) return fault;
    elements.push({ ai: entry.ai, value });
    rest = rest.slice(value.length);
    if (rest.startsWith(FNC1)) rest = rest.slice(1);
  }
  return elements.length > 0 ? ok(elements) : refused('gs1-empty', 'The label says that it is GS1, but it is empty.');
}

/**
 * GS1 data for these elements, without the FNC1 of first place; every element must fit its row.
 * @internal The kiosk prints no GS1 labels: tests and benches make what is to be read.
 */
export function makeElementString(elements: readonly Element[]): string {
  let data = '';
  elements.forEach(({ ai, value }, index) => {
    const entry = identifierAt(ai);
    assert(entry?.ai === ai && faultOf(entry, value) === null, `(${ai})${value} is a valid element`);
    data += ai + value + (!entry.predefined && index < elements.length - 1 ? FNC1 : '');
  });
  return data;
}
