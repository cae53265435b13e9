/** Why a file of the loft was turned away: each finding with its file, its line and a sentence that says what to do. */

/** Every way in which a file can be wrong. Names are stable: tests and records use them. */
export const FAULTS = [
  'not-yaml',
  'too-large',
  'unknown-field',
  'missing-field',
  'wrong-type',
  'unknown-word',
  'too-few',
  'too-many',
  'too-small',
  'too-big',
  'bad-text',
  'bad-date',
  'bad-quantity',
  'unknown-unit',
  'bad-id',
  'id-not-file-name',
  'duplicate-id',
  'unknown-reference',
  'later-stage',
  'caution-missing',
  'number-told',
  'bad-plan',
  'line-disagrees',
  'either-or',
  'wrong-kinds',
  'placed-twice',
  'removed-before-placed',
  'never-placed',
  'never-removed',
  'never-measured',
  'no-closing-stage',
  'closed-in',
  'wrong-class',
  'reserved-name',
  'duplicate-badge',
  'duplicate-serial',
  'duplicate-certificate',
  'duplicate-seal-mark',
  'dates-reversed',
  'missing-file',
  'duplicate-file',
  'unknown-file',
  'is-command',
] as const;
export type Fault = (typeof FAULTS)[number];

/** A finding with its place. Lines count from one. */
export interface RefusedLine {
  readonly file: string;
  readonly line: number;
  readonly fault: Fault;
  /** What is wrong and what to do, one or two sentences. */
  readonly reason: string;
}

/** A finding before its line is known: where in the data it lies. */
export interface Problem {
  readonly path: readonly PropertyKey[];
  readonly fault: Fault;
  readonly reason: string;
}

/** A checked value, or everything that is wrong with the file, in the order of its lines. */
export type Parsed<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly refused: readonly RefusedLine[] };
