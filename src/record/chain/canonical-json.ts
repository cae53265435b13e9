/** JSON in the one canonical form of RFC 8785: the same value always gives the same bytes. */
import { ok, refused, type Result } from '../../domain/result';
import { isWellFormed } from './utf8';

/** Deeper values than this are none of ours; it keeps hostile input from exhausting the stack. */
const MAX_DEPTH = 64;

/** Thrown and caught in this file alone: a refusal deep inside a value. */
class NotJson extends Error {}

/**
 * The canonical text of a value: keys in the order of their UTF-16 code units, no white space, numbers and strings as
 * ECMAScript writes them (RFC 8785 sections 3.2.2 and 3.2.3). What JSON cannot carry is refused, not left out.
 */
export function makeCanonicalJson(value: unknown): Result<string, 'not-json'> {
  try {
    return ok(write(value, 0));
  } catch (error) {
    if (error instanceof NotJson) return refused('not-json', `${error.message}; it cannot be written as JSON.`);
    throw error;
  }
}

function write(value: unknown, depth: number): string {
  if (depth > MAX_DEPTH) throw new NotJson(`The value is nested deeper than ${MAX_DEPTH} levels`);
  if (value === null || typeof value === 'boolean') return String(value);
  if (typeof value === 'number') return writeNumber(value);
  if (typeof value === 'string') return writeString(value);
  if (Array.isArray(value)) return `[${value.map((item) => write(item, depth + 1)).join(',')}]`;
  if (typeof value === 'object' && isPlain(value)) return writeObject(value, depth);
  throw new NotJson(`A value of type ${typeof value} stands in the data`);
}

function writeNumber(value: number): string {
  if (!Number.isFinite(value)) throw new NotJson('A number is not finite');
  // Minus zero becomes "0" (RFC 8785 section 3.2.2.3).
  return String(value);
}

function writeString(value: string): string {
  if (!isWellFormed(value)) throw new NotJson('A text has half of a surrogate pair');
  return JSON.stringify(value);
}

function writeObject(value: object, depth: number): string {
  const members = Object.entries(value)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, item]) => `${writeString(key)}:${write(item, depth + 1)}`);
  return `{${members.join(',')}}`;
}

/** Dates, maps and the like have no JSON of their own. */
function isPlain(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}
