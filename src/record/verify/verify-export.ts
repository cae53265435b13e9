/**
 * Checks an export from its bytes alone: is every fact there, once, in order, unaltered, and does all of it lead to the
 * root that the file states. Shares only the hash functions with the code that writes exports.
 */
import { createDigest, leafHash, makeHashHex, parseHashHex } from '../chain/hash';
import { readHeader, readPlace, readSeal, spells, splitLines, type Finding, type Header } from './read-export';
import { pathLeads, rootByLevels } from './root';

export type { Finding } from './read-export';

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

/** Every finding, in the order of the lines. Never throws, whatever the bytes are. */
export function verifyExport(bytes: Uint8Array): Verdict {
  const lines = splitLines(bytes);
  if (lines === null)
    return nothingBut({ line: null, seq: null, what: 'cut-short', detail: 'The last line has no end.' });
  const header = readHeader(lines[0] ?? new Uint8Array(0));
  if ('what' in header) return nothingBut(header);
  const findings: Finding[] = [];
  const belong = 2 + 2 * header.facts;
  if (lines.length !== belong) {
    const detail = `The file has ${lines.length} lines where ${belong} belong.`;
    findings.push({ line: Math.min(lines.length, belong), seq: null, what: 'cut-short', detail });
  }
  const facts = lines.slice(1, 1 + header.facts);
  findings.push(...checkOrder(facts, header));
  findings.push(...checkSeals(lines.slice(1 + header.facts, belong - 1), facts, header));
  if (header.pack === null && makeHashHex(rootByLevels(facts.map(leafHash))) !== header.head.root) {
    findings.push({
      line: 1,
      seq: null,
      what: 'root',
      detail: 'The facts do not lead to the root that the file states.',
    });
  }
  if (!endsWithDigest(bytes, lines)) {
    const detail = 'The last line is not the SHA-256 of the lines before it: something above was altered.';
    findings.push({ line: lines.length, seq: null, what: 'digest', detail });
  }
  findings.sort((a, b) => (a.line ?? 0) - (b.line ?? 0));
  return { sound: findings.length === 0, facts: facts.length, head: header.head, pack: header.pack, findings };
}

/** For a pack, this alone finds an accident to the size in the header: proofs do not bind it, a signed head does. */
function endsWithDigest(bytes: Uint8Array, lines: readonly Uint8Array[]): boolean {
  const last = lines.at(-1);
  if (last === undefined) return false;
  const digest = createDigest();
  digest.update(bytes.subarray(0, bytes.length - last.length - 1));
  return spells(last, `{"sha256":"${makeHashHex(digest.hash())}"}`);
}

function checkOrder(facts: readonly Uint8Array[], { head, pack }: Header): Finding[] {
  const findings: Finding[] = [];
  const seen = new Set<number>();
  let next = 0;
  facts.forEach((bytes, i) => {
    const place = readPlace(bytes);
    const note = (what: Finding['what'], detail: string): void =>
      void findings.push({ line: i + 2, seq: place?.seq ?? null, what, detail });
    if (place === null) {
      note('unreadable', 'This line is no fact.');
      next += 1;
      return;
    }
    const { seq } = place;
    if (seen.has(seq)) note('repeated', `Fact ${seq} stands here again.`);
    else if (seq < next) note('out-of-order', `Fact ${seq} stands behind later ones.`);
    else if (seq > next && pack === null) note('missing', `Fact ${next} belongs here; fact ${seq} stands here.`);
    if (pack !== null && place.pack !== pack) note('foreign', `Fact ${seq} belongs to pack ${place.pack}.`);
    if (seq >= head.size) note('foreign', `The journal had only ${head.size} facts when this was exported.`);
    seen.add(seq);
    next = Math.max(next, seq + 1);
  });
  if (pack === null && facts.length !== head.size) {
    findings.push({ line: 1, seq: null, what: 'missing', detail: `${facts.length} facts of ${head.size} are here.` });
  }
  return findings;
}

function checkSeals(seals: readonly Uint8Array[], facts: readonly Uint8Array[], header: Header): Finding[] {
  return seals.flatMap((bytes, i) => {
    const fact = facts[i];
    const finding = fact === undefined ? null : checkSeal(bytes, { fact, index: i, header });
    return finding === null ? [] : [finding];
  });
}

/** The seal of the index-th fact line. */
function checkSeal(bytes: Uint8Array, at: { fact: Uint8Array; index: number; header: Header }): Finding | null {
  const { fact, index, header } = at;
  const line = 2 + header.facts + index;
  const seal = readSeal(bytes);
  if (seal === null) return { line, seq: null, what: 'seal', detail: 'This line is no seal.' };
  const { seq } = seal;
  const leaf = leafHash(fact);
  if (makeHashHex(leaf) !== seal.leaf) {
    const detail = `Fact ${seq} and its seal do not fit one another: one of them was altered.`;
    return { line: index + 2, seq, what: 'altered', detail };
  }
  if (seq !== readPlace(fact)?.seq) return { line, seq, what: 'seal', detail: `This is the seal of fact ${seq}.` };
  if ((seal.path === null) !== (header.pack === null)) {
    return { line, seq, what: 'seal', detail: 'A proof is missing, or stands where none belongs.' };
  }
  if (seal.path === null) return null;
  const root = parseHashHex(header.head.root);
  const path = seal.path.map(parseHashHex).flatMap((hash) => (hash.ok ? [hash.value] : []));
  const leads = root.ok && pathLeads({ index: seq, size: header.head.size, leaf, root: root.value, path });
  return leads ? null : { line, seq, what: 'proof', detail: `Fact ${seq} does not lead to the root.` };
}

function nothingBut(finding: Finding): Verdict {
  return { sound: false, facts: 0, head: null, pack: null, findings: [finding] };
}
