/** Checks the checkpoints of an export: signed by a key that may, in order, each true of the facts up to it. */
import type { Finding } from './finding';
import { readCheckpoint } from './read-export';
import { readCheckpointText, readKey, readNote, type ReadKey, type ReadNote } from './read-note';
import { rootAt } from './root';
import type { Reading } from './verify-export';

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

export async function checkCheckpoints(reading: Reading, trust: Trust): Promise<readonly Finding[]> {
  const { header, checkpoints } = reading;
  if (header === null) return [];
  const findings: Finding[] = [];
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
    await checkSigned(read, at.origin, { keys, trust, note });
  }
  if (last?.size !== header.head.size || last.root !== header.head.root) {
    const detail = 'No checkpoint states the head of this file: nobody vouches for all of it.';
    findings.push({ line: 1, seq: null, what: 'checkpoint', detail });
  }
  return findings;
}

interface Judge {
  readonly keys: readonly ReadKey[];
  readonly trust: Trust;
  readonly note: (what: Finding['what'], detail: string) => void;
}

/** A note counts when a key that the file names, and the caller trusts, has signed it. */
export async function checkSigned(read: ReadNote, origin: string, { keys, trust, note }: Judge): Promise<void> {
  if (read.signatures.length === 0) {
    return note('signature', 'This checkpoint was not signed: anybody could have written it.');
  }
  const pairs = read.signatures.flatMap((one) => {
    const key = keys.find(({ name, id }) => name === one.name && id === one.id);
    return key === undefined ? [] : [{ key, signature: one.signature }];
  });
  const [pair] = pairs;
  if (pair === undefined) return note('key', 'This checkpoint is signed by a key that the file does not name.');
  if (pair.key.name !== origin) note('checkpoint', 'The checkpoint is of another journal than the key’s.');
  if (trust.keys.length > 0 && !trust.keys.includes(pair.key.text)) {
    note('key', `This checkpoint is signed by key ${pair.key.id}, which is none of the loft’s.`);
  }
  const sound = await trust.checkSignature(pair.key.publicKey, ENCODER.encode(read.text), pair.signature);
  if (sound === null) note('signature', 'This computer cannot check Ed25519 signatures; use a newer one.');
  else if (!sound) note('signature', 'The signature does not fit: this checkpoint was altered or forged.');
}
