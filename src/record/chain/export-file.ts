/**
 * The journal, or one pack of it, as a text file that can be verified without this program: a header line, then each
 * fact on a line of its own in exactly its stored bytes, then for each fact a seal line with its hash (and, for a pack,
 * its proof), then the checkpoints, signed by the kiosk, and at the end the SHA-256 of all that stands before. That last
 * line finds accidents, not forgers: anybody can make it anew. Nobody but the kiosk can make the checkpoints anew.
 */
import { z } from 'zod';
import { assert } from '../../domain/assert';
import type { Fact } from '../../domain/fact';
import { ok, refused, type Refused, type Result } from '../../domain/result';
import { makeCanonicalJson } from './canonical-json';
import { parseFactBytes } from './fact-bytes';
import { EMPTY_RANGE, extendRange, rootOfRange, type CompactRange } from './compact-range';
import { createDigest, leafHash, makeHashHex, parseHashHex, sameHash, type Hash } from './hash';
import { checkInclusion } from './proof';
import { makeUtf8, parseUtf8 } from './utf8';

export const EXPORT_FORMAT = 2;
/** More checkpoints than a kiosk makes in a hundred years. */
const MOST_CHECKPOINTS = 1_000_000;

export interface ExportHead {
  readonly size: number;
  /** Hex. */
  readonly root: string;
}

export interface ExportedFact {
  readonly fact: Fact;
  /** The evidence: exactly what is stored and hashed. */
  readonly bytes: Uint8Array;
  /** For a pack: what leads from this fact to the root. Empty in a whole journal, which needs none. */
  readonly path: readonly Hash[];
}

export interface ExportFile {
  readonly head: ExportHead;
  /** The one pack that was exported; null for the whole journal. */
  readonly pack: string | null;
  readonly facts: readonly ExportedFact[];
  /** Signed notes (or texts marked as unsigned), oldest first; the last one states the head. None from a bare store. */
  readonly checkpoints: readonly string[];
  /** Every key that checkpoints are signed with, the present one last; none where the browser cannot sign. */
  readonly keys: readonly string[];
}

export type ExportFault = 'not-an-export' | 'newer' | 'cut-short' | 'altered';

const hash = z.string().regex(/^[0-9a-f]{64}$/);

/** The first line. */
export const HEADER = z.strictObject({
  format: z.literal('stowcall-export'),
  v: z.literal(EXPORT_FORMAT),
  pack: z.string().min(1).max(200).nullable(),
  /** Number of facts in this file. */
  facts: z.int().min(0),
  /** Number of checkpoints in this file. */
  checkpoints: z.int().min(0).max(MOST_CHECKPOINTS),
  head: z.strictObject({ size: z.int().min(0), root: hash }),
  keys: z.array(z.string().min(1).max(600)).max(100),
});

/** One for each fact, in the same order. */
export const SEAL = z.strictObject({
  seq: z.int().min(0),
  leaf: hash,
  path: z.array(hash).max(53).optional(),
});

/** One for each checkpoint. */
export const CHECKPOINT = z.strictObject({ checkpoint: z.string().min(1).max(20_000) });

/** The last line. */
export const END = z.strictObject({ sha256: hash });

/** The lines of an export, without line ends, one at a time: a long journal never lies in memory twice. */
export function* makeExportLines(file: ExportFile): Generator<string, void> {
  const digest = createDigest();
  for (const line of contentLines(file)) {
    digest.update(makeUtf8(`${line}\n`));
    yield line;
  }
  yield json({ sha256: makeHashHex(digest.hash()) });
}

function digestLine(lines: readonly string[]): string {
  const digest = createDigest();
  for (const line of lines) digest.update(makeUtf8(`${line}\n`));
  return json({ sha256: makeHashHex(digest.hash()) });
}

function* contentLines({ head, pack, facts, checkpoints, keys }: ExportFile): Generator<string, void> {
  const counts = { facts: facts.length, checkpoints: checkpoints.length };
  yield json({ format: 'stowcall-export', v: EXPORT_FORMAT, pack, ...counts, head, keys });
  for (const { bytes } of facts) {
    const line = parseUtf8(bytes);
    assert(line.ok && !line.value.includes('\n'), 'a stored fact is one line of text');
    yield line.value;
  }
  for (const { fact, bytes, path } of facts) {
    const seal = { seq: fact.seq, leaf: makeHashHex(leafHash(bytes)) };
    yield json(pack === null ? seal : { ...seal, path: path.map(makeHashHex) });
  }
  for (const checkpoint of checkpoints) yield json({ checkpoint });
}

/** The export as text; every line, the last one too, ends with a line feed. */
export function makeExportText(file: ExportFile): string {
  return [...makeExportLines(file), ''].join('\n');
}

/** The inverse of `makeExportText`: only a whole, sound and consistent export passes; the detail names the line. */
export function parseExportText(text: string): Result<ExportFile, ExportFault> {
  const lines = text.split('\n');
  if (lines.pop() !== '') return fault('cut-short', lines.length + 1, 'it has no end; the file was cut short');
  const header = parseHeader(lines[0]);
  if (!header.ok) return header;
  const { head, pack, keys, facts: count } = header.value;
  const belong = 2 + 2 * count + header.value.checkpoints;
  if (lines.length !== belong) {
    return fault('cut-short', lines.length, `the file has ${lines.length} lines where ${belong} belong`);
  }
  if (pack === null && count !== head.size)
    return fault('altered', 1, 'a whole journal has as many facts as its head says');

  const facts: ExportedFact[] = [];
  for (let i = 0; i < count; i += 1) {
    const fact = parseFactPair(lines, { index: i, count, head, pack });
    if (!fact.ok) return fact;
    const before = facts.at(-1)?.fact.seq ?? -1;
    if (fact.value.fact.seq <= before)
      return fault('altered', i + 2, `fact ${fact.value.fact.seq} follows fact ${before}`);
    facts.push(fact.value);
  }
  if (pack === null && makeHashHex(rootOf(facts)) !== head.root) {
    return fault('altered', 1, 'the facts do not lead to the root that the header states');
  }
  const checkpoints: string[] = [];
  for (let line = 2 + 2 * count; line < belong; line += 1) {
    const checkpoint = CHECKPOINT.safeParse(parseLine(lines[line - 1] ?? ''));
    if (!checkpoint.success || !isSpelledRight(checkpoint.data, lines[line - 1]))
      return fault('altered', line, 'it is no checkpoint');
    checkpoints.push(checkpoint.data.checkpoint);
  }
  const file: ExportFile = { head, pack, facts, checkpoints, keys };
  if (lines.at(-1) !== digestLine(lines.slice(0, -1))) {
    return fault('altered', lines.length, 'it is not the SHA-256 of the lines before it');
  }
  return ok(file);
}

function parseHeader(line: string | undefined): Result<z.infer<typeof HEADER>, ExportFault> {
  const value = parseLine(line ?? '');
  if (typeof value === 'object' && value !== null && 'format' in value && value.format === 'stowcall-export') {
    const version = 'v' in value ? value.v : null;
    if (typeof version === 'number' && version > EXPORT_FORMAT) {
      return fault('newer', 1, 'a newer version of the kiosk wrote this file');
    }
    const header = HEADER.safeParse(value);
    if (header.success && isSpelledRight(header.data, line)) return ok(header.data);
    return fault('altered', 1, 'the header is not as we write it');
  }
  return refused('not-an-export', 'This file is not an export of a journal; choose another one.');
}

interface Place {
  readonly index: number;
  readonly count: number;
  readonly head: ExportHead;
  readonly pack: string | null;
}

/** The index-th fact line and its seal line, checked against one another and against the head. */
function parseFactPair(lines: readonly string[], place: Place): Result<ExportedFact, ExportFault> {
  const { index, count, head, pack } = place;
  const [factLine, sealLine] = [index + 2, index + 2 + count];
  const bytes = makeUtf8(lines[factLine - 1] ?? '');
  const fact = parseFactBytes(bytes);
  if (!fact.ok) return fault(fact.reason === 'newer' ? 'newer' : 'altered', factLine, fact.detail);
  if (pack === null && fact.value.seq !== index) return fault('altered', factLine, `fact ${index} belongs here`);
  if (pack !== null && fact.value.pack !== pack) return fault('altered', factLine, 'it belongs to another pack');

  const seal = SEAL.safeParse(parseLine(lines[sealLine - 1] ?? ''));
  if (!seal.success || !isSpelledRight(seal.data, lines[sealLine - 1]))
    return fault('altered', sealLine, 'it is no seal');
  if (seal.data.seq !== fact.value.seq) return fault('altered', sealLine, 'it is the seal of another fact');
  const leaf = parseHashHex(seal.data.leaf);
  if (!leaf.ok || !sameHash(leaf.value, leafHash(bytes))) return fault('altered', factLine, 'its hash is another one');
  const path = (seal.data.path ?? []).map(parseHashHex);
  if ((seal.data.path === undefined) !== (pack === null)) return fault('altered', sealLine, 'its proof is missing');
  const hashes = path.flatMap((hash) => (hash.ok ? [hash.value] : []));
  const root = parseHashHex(head.root);
  if (!root.ok) return fault('altered', 1, 'the root is no hash');
  if (pack !== null) {
    const claim = { index: fact.value.seq, size: head.size, leaf: leaf.value, root: root.value, proof: hashes };
    if (hashes.length !== path.length || !checkInclusion(claim).ok)
      return fault('altered', sealLine, 'its proof fails');
  }
  return ok({ fact: fact.value, bytes, path: hashes });
}

function rootOf(facts: readonly ExportedFact[]): Hash {
  return rootOfRange(facts.reduce<CompactRange>((tree, { bytes }) => extendRange(tree, leafHash(bytes)), EMPTY_RANGE));
}

function json(value: unknown): string {
  const text = makeCanonicalJson(value);
  assert(text.ok, 'the lines of an export are plain values');
  return text.value;
}

/** One value has one spelling, so that no two files say the same. */
function isSpelledRight(value: unknown, line: string | undefined): boolean {
  const text = makeCanonicalJson(value);
  return text.ok && text.value === line;
}

function parseLine(line: string): unknown {
  try {
    return JSON.parse(line) as unknown;
  } catch {
    return undefined;
  }
}

function fault(reason: ExportFault, line: number, why: string): Refused<ExportFault> {
  return refused(reason, `Line ${line} of the export: ${why}. Do not rely on this file; ask for it again.`);
}
