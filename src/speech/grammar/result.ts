/**
 * Expected outcomes as values: a thing that worked, or a refusal with a named reason. A small copy of the kiosk's own,
 * and so is assert.ts: the package must stand alone, and these types fit each other by their shape.
 */

export interface Ok<T> {
  readonly ok: true;
  readonly value: T;
}

export interface Refused<R extends string = string> {
  readonly ok: false;
  /** Stable name for code and records, kebab-case. */
  readonly reason: R;
  /** One sentence for a person: what is wrong, then what to do. */
  readonly detail: string;
}

export type Result<T, R extends string = string> = Ok<T> | Refused<R>;

/** Wraps a value as a success. */
export function ok<T>(value: T): Ok<T> {
  return { ok: true, value };
}

/** Makes a refusal. `reason` is for code and records, `detail` is shown and spoken. */
export function refused<R extends string>(reason: R, detail: string): Refused<R> {
  return { ok: false, reason, detail };
}
