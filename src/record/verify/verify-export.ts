/**
 * Checks an export from its bytes alone: is every fact there, once, in order, unaltered, and does all of it lead to the
 * root that the file states. Shares nothing with the code that writes exports.
 */
import type { Finding } from './finding';
import {
  readHeader,
  readJson,
  readPlace,
  readSeal,
  spells,
  splitLines,
  type Header,
  type Lines,
} from './bytes/read-export';
import { leafInto, levelsOf, pathLeads, topOf, type Levels } from './bytes/merkle-root';
import { hexAt, Sha256 } from './bytes/sha256';

export type { Finding } from './finding';

export interface Verdict {
  /** True only when nothing was found. */
  readonly sound: boolean;
  /** Facts in the file. */
  readonly facts: number;
  /** The root that the file states, once the header could be read; compare it with the printed one. */
  readonly head: { readonly size: number; readonly root: string } | null;
  readonly pack: string | null;
  readonly findings: readonly Finding[];
}

/** What the bytes hold, as far as they could be read. */
export interface Reading {
  readonly verdict: Verdict;
  /** Null where not even the header could be read. */
  readonly header: Header | null;
  /** Raw lines of the checkpoints, and the number of the first of them. */
  readonly checkpoints: { readonly from: number; readonly lines: readonly Uint8Array[] };
  /** Levels of the tree of a whole journal; empty for one pack. */
  readonly levels: Levels;
}

/** Is told of each fact line in turn: its number, its JSON value, and its bytes. */
export type FactVisitor = (line: number, value: unknown, bytes: Uint8Array) => void;

/**
 * Every finding, in the order of the lines, with everything that is needed to look further. Never throws, whatever the
 * bytes are.
 */
export function readExport(bytes: Uint8Array, visit: FactVisitor): Reading {
  const lines = splitLines(bytes);
  if (lines === null)
    return nothingBut({ line: null, seq: null, what: 'cut-short', detail: 'The last line has no end.' });
  const header = readHeader(lines.at(0));
  if ('what' in header) return nothingBut(header);
  const findings: Finding[] = [];
  const belong = 2 + 2 * header.facts + header.checkpoints;
  if (lines.count !== belong) {
    const detail = `The file has ${lines.count} lines where ${belong} belong.`;
    findings.push({ line: Math.min(lines.count, belong), seq: null, what: 'cut-short', detail });
  }
  const facts = readFacts(lines, header, visit);
  const from = 1 + 2 * header.facts;
  // One at a time: as arguments of one call, many thousands would be too many for the host.
  for (const finding of facts.findings) findings.push(finding);
  for (const finding of checkSeals(lines, { ...facts, header })) findings.push(finding);
  const levels = header.pack === null ? levelsOf(facts.leaves) : [];
  if (header.pack === null && hexAt(topOf(levels)) !== header.head.root) {
    const detail = 'The facts do not lead to the root that the file states.';
    findings.push({ line: 1, seq: null, what: 'root', detail });
  }
  if (!endsWithDigest(bytes, lines)) {
    const detail = 'The last line is not the SHA-256 of the lines before it: something above was altered.';
    findings.push({ line: lines.count, seq: null, what: 'digest', detail });
  }
  findings.sort((a, b) => (a.line ?? 0) - (b.line ?? 0));
  const { head, pack } = header;
  const verdict = { sound: findings.length === 0, facts: facts.count, head, pack, findings };
  const last = Math.min(belong, lines.count) - 1;
  const notes = Array.from({ length: Math.max(0, last - from) }, (_, index) => lines.at(from + index));
  return { verdict, header, checkpoints: { from: from + 1, lines: notes }, levels };
}

/** For a pack, this alone finds an accident to the size in the header: proofs do not bind it, a signed head does. */
function endsWithDigest(bytes: Uint8Array, lines: Lines): boolean {
  const last = lines.at(lines.count - 1);
  const out = new Uint8Array(32);
  new Sha256()
    .begin()
    .take(bytes, 0, bytes.length - last.length - 1)
    .end(out);
  return spells(last, `{"sha256":"${hexAt(out)}"}`);
}

interface Facts {
  readonly findings: readonly Finding[];
  /** Fact lines that are there. */
  readonly count: number;
  /** Leaf hashes side by side. */
  readonly leaves: Uint8Array;
  /** Number of the fact on each line; -1 where it is none. */
  readonly seqs: Float64Array;
}

function readFacts(lines: Lines, { facts, head, pack }: Header, visit: FactVisitor): Facts {
  const count = Math.max(0, Math.min(facts, lines.count - 1));
  const findings: Finding[] = [];
  const leaves = new Uint8Array(32 * count);
  const seqs = new Float64Array(count).fill(-1);
  const seen = new Set<number>();
  let next = 0;
  for (let i = 0; i < count; i += 1) {
    const bytes = lines.at(1 + i);
    leafInto(leaves, i, bytes);
    const value = readJson(bytes);
    const place = readPlace(value);
    const note = (what: Finding['what'], detail: string): void =>
      void findings.push({ line: i + 2, seq: place?.seq ?? null, what, detail });
    if (place === null) {
      note('unreadable', 'This line is no fact.');
      next += 1;
      continue;
    }
    const { seq } = place;
    seqs[i] = seq;
    // Facts in their order, from the first on, need no list of what was there already.
    const inOrder = seq === next && seen.size === 0 && pack === null;
    if (!inOrder) {
      if (seen.size === 0) for (let earlier = 0; earlier < i; earlier += 1) seen.add(seqs[earlier] ?? -1);
      if (seen.has(seq)) note('repeated', `Fact ${seq} stands here again.`);
      else if (seq < next) note('out-of-order', `Fact ${seq} stands behind later ones.`);
      else if (seq > next && pack === null) note('missing', `Fact ${next} belongs here; fact ${seq} stands here.`);
      seen.add(seq);
    }
    if (pack !== null && place.pack !== pack) note('foreign', `Fact ${seq} belongs to pack ${place.pack}.`);
    if (seq >= head.size) note('foreign', `The journal had only ${head.size} facts when this was exported.`);
    next = Math.max(next, seq + 1);
    visit(i + 2, value, bytes);
  }
  if (pack === null && count !== head.size) {
    findings.push({ line: 1, seq: null, what: 'missing', detail: `${count} facts of ${head.size} are here.` });
  }
  return { findings, count, leaves, seqs };
}

function checkSeals(lines: Lines, facts: Facts & { readonly header: Header }): readonly Finding[] {
  const findings: Finding[] = [];
  const first = 1 + facts.header.facts;
  const count = Math.min(facts.count, lines.count - first);
  for (let index = 0; index < count; index += 1) {
    const finding = checkSeal(lines.at(first + index), { ...facts, index });
    if (finding !== null) findings.push(finding);
  }
  return findings;
}

/** The seal of the index-th fact line. */
function checkSeal(bytes: Uint8Array, at: Facts & { header: Header; index: number }): Finding | null {
  const { leaves, index, seqs, header } = at;
  const line = 2 + header.facts + index;
  const hex = hexAt(leaves, 32 * index);
  if (header.pack === null && spells(bytes, `{"leaf":"${hex}","seq":${seqs[index] ?? -1}}`)) return null;
  const seal = readSeal(bytes);
  if (seal === null) return { line, seq: null, what: 'seal', detail: 'This line is no seal.' };
  const { seq } = seal;
  if (hex !== seal.leaf) {
    const detail = `Fact ${seq} and its seal do not fit one another: one of them was altered.`;
    return { line: index + 2, seq, what: 'altered', detail };
  }
  if (seq !== seqs[index]) return { line, seq, what: 'seal', detail: `This is the seal of fact ${seq}.` };
  if ((seal.path === null) !== (header.pack === null)) {
    return { line, seq, what: 'seal', detail: 'A proof is missing, or stands where none belongs.' };
  }
  if (seal.path === null) return null;
  const leaf = leaves.slice(32 * index, 32 * index + 32);
  const path = seal.path.map(fromHex);
  const leads = pathLeads({ index: seq, size: header.head.size, leaf, root: fromHex(header.head.root), path });
  return leads ? null : { line, seq, what: 'proof', detail: `Fact ${seq} does not lead to the root.` };
}

/** The bytes of a hash whose hex digits have been looked at. */
function fromHex(hex: string): Uint8Array {
  return Uint8Array.from({ length: 32 }, (_, at) => Number.parseInt(hex.slice(2 * at, 2 * at + 2), 16));
}

function nothingBut(finding: Finding): Reading {
  const verdict = { sound: false, facts: 0, head: null, pack: null, findings: [finding] };
  return { verdict, header: null, checkpoints: { from: 1, lines: [] }, levels: [] };
}
