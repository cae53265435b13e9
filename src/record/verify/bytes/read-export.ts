/** Takes an export apart into lines and fields, with a finding for everything that is not as it must be. */
import type { Finding } from '../finding';

export type { Finding } from '../finding';

export interface Header {
  readonly facts: number;
  readonly checkpoints: number;
  /** The keys that the file says its checkpoints are signed with. */
  readonly keys: readonly string[];
  readonly head: { readonly root: string; readonly size: number };
  readonly pack: string | null;
}

const DECODER = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
const FORMAT = 'stowcall-export';
const VERSION = 2;

/** The lines of a file without a copy, and without an object for each of millions until it is asked for. */
export interface Lines {
  readonly count: number;
  /** The raw bytes of the line at `index`, counted from 0; empty where there is none. */
  at(index: number): Uint8Array;
}

/** The lines of the file; null when the last one has no end. */
export function splitLines(bytes: Uint8Array): Lines | null {
  let ends = new Float64Array(1_024);
  let count = 0;
  let from = 0;
  for (let end = bytes.indexOf(0x0a); end >= 0; end = bytes.indexOf(0x0a, from)) {
    if (count === ends.length) {
      const larger = new Float64Array(2 * count);
      larger.set(ends);
      ends = larger;
    }
    ends[count] = end;
    count += 1;
    from = end + 1;
  }
  if (from !== bytes.length) return null;
  const startOf = (index: number): number => (index === 0 ? 0 : (ends[index - 1] ?? 0) + 1);
  const at = (index: number): Uint8Array =>
    index < 0 || index >= count ? new Uint8Array(0) : bytes.subarray(startOf(index), ends[index] ?? 0);
  return { count, at };
}

/** The JSON value of a line; undefined for none. */
export function readJson(line: Uint8Array): unknown {
  try {
    return JSON.parse(DECODER.decode(line)) as unknown;
  } catch {
    return undefined;
  }
}

/** The header, or what is wrong with it. */
export function readHeader(line: Uint8Array): Header | Finding {
  const value = readJson(line);
  const of = (what: Finding['what'], detail: string): Finding => ({ line: 1, seq: null, what, detail });
  if (!isObject(value) || value.format !== FORMAT)
    return of('not-an-export', 'The first line is not the head of an export.');
  const { checkpoints, facts, head, keys, pack, v } = value;
  if (typeof v === 'number' && v > VERSION) return of('newer', 'A newer version of the kiosk wrote this file.');
  const whole =
    isCount(facts) &&
    isCount(checkpoints) &&
    isObject(head) &&
    isCount(head.size) &&
    isHex(head.root) &&
    (pack === null || isText(pack)) &&
    Array.isArray(keys) &&
    keys.every(isText);
  if (!whole) return of('header', 'The header is not as the format has it.');
  const header = {
    checkpoints: Number(checkpoints),
    facts: Number(facts),
    head: { root: String(head.root), size: Number(head.size) },
    keys: keys.map(String),
    pack,
  };
  // The one spelling that the format allows: keys in this order, no white space, nothing more.
  const counts = { checkpoints: header.checkpoints, facts: header.facts };
  const spelled = JSON.stringify({ ...counts, format: FORMAT, head: header.head, keys, pack, v: VERSION });
  return spells(line, spelled) ? header : of('header', 'The header is not spelled as the format has it.');
}

export interface Seal {
  readonly seq: number;
  readonly leaf: string;
  readonly path: readonly string[] | null;
}

/** A seal line, or null when it is none. */
export function readSeal(line: Uint8Array): Seal | null {
  const value = readJson(line);
  if (!isObject(value) || !isCount(value.seq) || !isHex(value.leaf)) return null;
  const { leaf, path, seq } = value;
  const hashes = path === undefined ? null : Array.isArray(path) && path.every(isHex) ? path.map(String) : undefined;
  if (hashes === undefined) return null;
  const seal = { leaf: String(leaf), path: hashes, seq: Number(seq) };
  const spelled = hashes === null ? { leaf: seal.leaf, seq: seal.seq } : seal;
  return spells(line, JSON.stringify(spelled)) ? seal : null;
}

/** The text of a checkpoint line, or null when it is none. */
export function readCheckpoint(line: Uint8Array): string | null {
  const value = readJson(line);
  if (!isObject(value) || !isText(value.checkpoint)) return null;
  return spells(line, JSON.stringify({ checkpoint: value.checkpoint })) ? value.checkpoint : null;
}

/** Sequence number and pack of a fact; null where it is not even that. */
export function readPlace(value: unknown): { readonly seq: number; readonly pack: string } | null {
  if (!isObject(value) || !isCount(value.seq) || !isText(value.pack)) return null;
  return { seq: Number(value.seq), pack: String(value.pack) };
}

/** Whether the line is exactly this text. */
export function spells(line: Uint8Array, text: string): boolean {
  try {
    return DECODER.decode(line) === text;
  } catch {
    return false;
  }
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isCount(value: unknown): boolean {
  return Number.isSafeInteger(value) && Number(value) >= 0;
}

function isText(value: unknown): value is string {
  return typeof value === 'string' && value !== '';
}

function isHex(value: unknown): boolean {
  return typeof value === 'string' && /^[0-9a-f]{64}$/.test(value);
}
