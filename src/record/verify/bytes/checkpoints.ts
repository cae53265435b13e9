/** Checks the checkpoints of an export: signed by a key that may, in order, each true of the facts up to it. */
import type { Finding } from '../finding';
import { readCheckpoint } from './read-export';
import { factOfCard } from './card-line';
import { readCheckpointText, readKey, readNote } from './read-note';
import type { ReadCheckpoint, ReadKey, ReadNote } from './read-note';
import { rootAt } from './merkle-root';
import type { Reading } from '../verify-export';

/** Whether a signature is that key's; null where this host cannot tell. */
export type CheckSignature = (
  publicKey: Uint8Array,
  message: Uint8Array,
  signature: Uint8Array,
) => Promise<boolean | null>;

export interface Trust {
  /** Keys of the loft that the caller knows; empty when there is nothing to compare with. */
  readonly keys: readonly string[];
  readonly checkSignature: CheckSignature;
}

const ENCODER = new TextEncoder();
/** Stands below a checkpoint that could not be signed. */
const UNSIGNED = /^unsigned: /;

/** A key whose signature was verified, and under what. */
export interface Signer {
  readonly key: string;
  readonly checkpoints: number;
  /** The checkpoint of the head, which vouches for the whole file, is one of them. */
  readonly head: boolean;
}

export interface ToCheck {
  readonly reading: Reading;
  /** What a card of each signed fact must say, by the fact's number. */
  readonly cards: ReadonlyMap<number, string>;
}

export interface Checked {
  readonly findings: readonly Finding[];
  readonly signers: readonly Signer[];
}

export async function checkCheckpoints({ reading, cards }: ToCheck, trust: Trust): Promise<Checked> {
  const { header, checkpoints } = reading;
  if (header === null) return { findings: [], signers: [] };
  const findings: Finding[] = [];
  const signers = new Map<string, Signer>();
  const keys = header.keys.map(readKey).filter((key) => key !== null);
  if (keys.length !== header.keys.length) {
    findings.push({ line: 1, seq: null, what: 'key', detail: 'A key in the header is none.' });
  }
  let before = -1;
  let last: { size: number; root: string } | null = null;
  for (const [index, bytes] of checkpoints.lines.entries()) {
    const line = checkpoints.from + index;
    const note = (what: Finding['what'], detail: string): void => void findings.push({ line, seq: null, what, detail });
    const read = readNote(readCheckpoint(bytes) ?? '');
    const at = read === null ? null : readCheckpointText(read.text);
    if (read === null || at === null) {
      note('checkpoint', 'This line is no checkpoint.');
      continue;
    }
    if (at.size <= before) note('checkpoint', `The checkpoint of ${at.size} facts stands behind a later one.`);
    before = at.size;
    last = at;
    const should = header.pack === null ? rootAt(reading.levels, at.size) : null;
    if (header.pack === null && should !== at.root) {
      note('checkpoint', `The first ${at.size} facts do not lead to the root that was signed then.`);
    }
    checkLines(at, { cards, whole: header.pack === null, note });
    const key = await checkSigned(read, at.origin, { keys, trust, note });
    if (key !== null) {
      const counted = signers.get(key)?.checkpoints ?? 0;
      signers.set(key, { key, checkpoints: counted + 1, head: at.size === header.head.size });
    }
  }
  if (last?.size !== header.head.size || last.root !== header.head.root) {
    const detail = 'No checkpoint states the head of this file: nobody vouches for all of it.';
    findings.push({ line: 1, seq: null, what: 'checkpoint', detail });
  }
  return { findings, signers: [...signers.values()] };
}

interface Lines {
  readonly cards: ReadonlyMap<number, string>;
  readonly whole: boolean;
  readonly note: (what: Finding['what'], detail: string) => void;
}

/** A line below a checkpoint is what a card says, or that nobody signed; a card says what its fact says. */
function checkLines({ size, more }: ReadCheckpoint, { cards, whole, note }: Lines): void {
  for (const line of more) {
    if (UNSIGNED.test(line)) continue;
    const seq = factOfCard(line);
    if (seq === null) {
      note('checkpoint', 'A line stands below this checkpoint that the format does not know.');
      continue;
    }
    const should = cards.get(seq);
    if (seq >= size || (should === undefined && whole))
      note('card', `A card was made of fact ${seq}, which is no signed record here.`);
    else if (should !== undefined && should !== line)
      note('card', `The card of fact ${seq} says something else than the fact.`);
  }
}

interface Judge {
  readonly keys: readonly ReadKey[];
  readonly trust: Trust;
  readonly note: (what: Finding['what'], detail: string) => void;
}

/** Gives the text of the key that verified this note; null where none did. */
async function checkSigned(read: ReadNote, origin: string, { keys, trust, note }: Judge): Promise<string | null> {
  if (read.signatures.length === 0) {
    note('signature', 'This checkpoint was not signed: anybody could have written it.');
    return null;
  }
  const pairs = read.signatures.flatMap((one) => {
    const key = keys.find(({ name, id }) => name === one.name && id === one.id);
    return key === undefined ? [] : [{ key, signature: one.signature }];
  });
  const [pair] = pairs;
  if (pair === undefined) {
    note('key', 'This checkpoint is signed by a key that the file does not name.');
    return null;
  }
  if (pair.key.name !== origin) note('checkpoint', 'The checkpoint is of another journal than the key’s.');
  if (trust.keys.length > 0 && !trust.keys.includes(pair.key.text)) {
    note('key', `This checkpoint is signed by key ${pair.key.id}, which is none of the loft’s.`);
  }
  const sound = await trust.checkSignature(pair.key.publicKey, ENCODER.encode(read.text), pair.signature);
  if (sound === null) note('signature', 'This computer cannot check Ed25519 signatures; use a newer one.');
  else if (!sound) note('signature', 'The signature does not fit: this checkpoint was altered or forged.');
  return sound === true ? pair.key.text : null;
}
