/**
 * Checks an export from its bytes alone: is every fact there, once, in order, unaltered, and does all of it lead to the
 * root that the file states. Shares only the hash functions with the code that writes exports.
 */
import { createDigest, leafHash, makeHashHex, parseHashHex, type Hash } from '../chain/hash';
import type { Finding } from './finding';
import { readHeader, readJson, readPlace, readSeal, spells, splitLines, type Header } from './read-export';
import { levelsOf, pathLeads } from './root';

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
  readonly levels: readonly (readonly Hash[])[];
}

/** Is told of each fact line in turn: its number, its JSON value, and its bytes. */
export type FactVisitor = (line: number, value: unknown, bytes: Uint8Array) => void;

/** Every finding, in the order of the lines. Never throws, whatever the bytes are. */
export function verifyExport(bytes: Uint8Array): Verdict {
  return readExport(bytes, () => undefined).verdict;
}

/** The same, with everything that is needed to look further. */
export function readExport(bytes: Uint8Array, visit: FactVisitor): Reading {
  const lines = splitLines(bytes);
  if (lines === null)
    return nothingBut({ line: null, seq: null, what: 'cut-short', detail: 'The last line has no end.' });
  const header = readHeader(lines[0] ?? new Uint8Array(0));
  if ('what' in header) return nothingBut(header);
  const findings: Finding[] = [];
  const belong = 2 + 2 * header.facts + header.checkpoints;
  if (lines.length !== belong) {
    const detail = `The file has ${lines.length} lines where ${belong} belong.`;
    findings.push({ line: Math.min(lines.length, belong), seq: null, what: 'cut-short', detail });
  }
  const facts = lines.slice(1, 1 + header.facts);
  const from = 1 + 2 * header.facts;
  const order = checkOrder(facts, header, visit);
  const leaves = facts.map(leafHash);
  findings.push(...order.findings);
  findings.push(...checkSeals(lines.slice(1 + header.facts, from), { leaves, seqs: order.seqs, header }));
  const levels = header.pack === null ? levelsOf(leaves) : [];
  const top = levels.at(-1)?.[0];
  if (header.pack === null && makeHashHex(top ?? emptyTree()) !== header.head.root) {
    const detail = 'The facts do not lead to the root that the file states.';
    findings.push({ line: 1, seq: null, what: 'root', detail });
  }
  if (!endsWithDigest(bytes, lines)) {
    const detail = 'The last line is not the SHA-256 of the lines before it: something above was altered.';
    findings.push({ line: lines.length, seq: null, what: 'digest', detail });
  }
  findings.sort((a, b) => (a.line ?? 0) - (b.line ?? 0));
  const { head, pack } = header;
  const verdict = { sound: findings.length === 0, facts: facts.length, head, pack, findings };
  const checkpoints = { from: from + 1, lines: lines.slice(from, Math.max(from, belong - 1)) };
  return { verdict, header, checkpoints, levels };
}

function emptyTree(): Hash {
  return createDigest().hash();
}

/** For a pack, this alone finds an accident to the size in the header: proofs do not bind it, a signed head does. */
function endsWithDigest(bytes: Uint8Array, lines: readonly Uint8Array[]): boolean {
  const last = lines.at(-1);
  if (last === undefined) return false;
  const digest = createDigest();
  digest.update(bytes.subarray(0, bytes.length - last.length - 1));
  return spells(last, `{"sha256":"${makeHashHex(digest.hash())}"}`);
}

interface Order {
  readonly findings: readonly Finding[];
  /** Number of the fact on each line; -1 where it is none. */
  readonly seqs: Float64Array;
}

function checkOrder(facts: readonly Uint8Array[], { head, pack }: Header, visit: FactVisitor): Order {
  const findings: Finding[] = [];
  const seqs = new Float64Array(facts.length).fill(-1);
  const seen = new Set<number>();
  let next = 0;
  facts.forEach((bytes, i) => {
    const value = readJson(bytes);
    const place = readPlace(value);
    const note = (what: Finding['what'], detail: string): void =>
      void findings.push({ line: i + 2, seq: place?.seq ?? null, what, detail });
    if (place === null) {
      note('unreadable', 'This line is no fact.');
      next += 1;
      return;
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
  });
  if (pack === null && facts.length !== head.size) {
    findings.push({ line: 1, seq: null, what: 'missing', detail: `${facts.length} facts of ${head.size} are here.` });
  }
  return { findings, seqs };
}

interface Facts {
  readonly leaves: readonly Hash[];
  readonly seqs: Float64Array;
  readonly header: Header;
}

function checkSeals(seals: readonly Uint8Array[], facts: Facts): Finding[] {
  return seals.flatMap((bytes, index) => {
    const leaf = facts.leaves[index];
    const finding = leaf === undefined ? null : checkSeal(bytes, { ...facts, leaf, index });
    return finding === null ? [] : [finding];
  });
}

/** The seal of the index-th fact line. */
function checkSeal(bytes: Uint8Array, at: Facts & { leaf: Hash; index: number }): Finding | null {
  const { leaf, index, seqs, header } = at;
  const line = 2 + header.facts + index;
  const hex = makeHashHex(leaf);
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
  const root = parseHashHex(header.head.root);
  const path = seal.path.map(parseHashHex).flatMap((hash) => (hash.ok ? [hash.value] : []));
  const leads = root.ok && pathLeads({ index: seq, size: header.head.size, leaf, root: root.value, path });
  return leads ? null : { line, seq, what: 'proof', detail: `Fact ${seq} does not lead to the root.` };
}

function nothingBut(finding: Finding): Reading {
  const verdict = { sound: false, facts: 0, head: null, pack: null, findings: [finding] };
  return { verdict, header: null, checkpoints: { from: 1, lines: [] }, levels: [] };
}
