/** The second factor beside a badge: when a PIN is asked for, what one looks like, and the form in which it is kept. */
import type { Result } from './result';
import { ok, refused } from './result';

/** When a PIN is asked for at a hold; a signature asks for it under both of the last two. */
export const PIN_POLICIES = ['never', 'firstUse', 'eachHold'] as const;
export type PinPolicy = (typeof PIN_POLICIES)[number];

/** Digits of a PIN. */
export const PIN_LENGTH = { least: 6, most: 10 } as const;

/** OWASP Password Storage Cheat Sheet: PBKDF2 with HMAC-SHA-256 takes at least this many iterations. */
export const PIN_ITERATIONS = 600_000;
const MOST_ITERATIONS = 10_000_000;

/** A PIN as it is kept: never itself, only a slow salted hash of it. */
export interface StoredPin {
  readonly iterations: number;
  /** 16 and 32 bytes in base64. */
  readonly salt: string;
  readonly hash: string;
}

const STORED = /^pbkdf2-sha256\$([1-9]\d{5,7})\$([A-Za-z0-9+/]{22}==)\$([A-Za-z0-9+/]{43}=)$/;

/** The stored form in parts; the number of iterations stands in it, so that it can grow over the years. */
export function parseStoredPin(text: string): Result<StoredPin, 'bad-pin'> {
  const [, digits, salt, hash] = STORED.exec(text) ?? [];
  const iterations = Number(digits);
  const isEnough = iterations >= PIN_ITERATIONS && iterations <= MOST_ITERATIONS;
  if (salt === undefined || hash === undefined || !isEnough) {
    return refused('bad-pin', 'This is no stored PIN. Make one with "npm run -s stowcall -- pin".');
  }
  return ok({ iterations, salt, hash });
}

export function makeStoredPin({ iterations, salt, hash }: StoredPin): string {
  return `pbkdf2-sha256$${String(iterations)}$${salt}$${hash}`;
}

/** Whether these digits may become somebody's PIN: long enough, and not one digit or a run over and over. */
export function checkNewPin(digits: string): Result<string, 'bad-pin'> {
  const { least, most } = PIN_LENGTH;
  if (!/^\d+$/.test(digits) || digits.length < least || digits.length > most) {
    return refused('bad-pin', `A PIN has ${String(least)} to ${String(most)} digits.`);
  }
  const steps = new Set([...digits].slice(1).map((digit, at) => (Number(digit) - Number(digits.charAt(at)) + 10) % 10));
  if (steps.size === 1 && [0, 1, 9].some((step) => steps.has(step))) {
    return refused('bad-pin', 'This PIN is one digit or a run of digits. Choose another one.');
  }
  return ok(digits);
}
