/** Tells whether a printed card is genuine, from its code, the loft's key and, where there is one, the journal's fact. */
import type { CheckSignature } from './bytes/checkpoints';
import { readKey } from './bytes/read-note';
import { readPaper } from './bytes/read-paper';
import { leafOf, rootOfPath } from './bytes/merkle-root';
import { hexAt } from './bytes/sha256';

export interface PaperVerdict {
  readonly genuine: boolean;
  /** One sentence for each thing that is wrong; empty when genuine. */
  readonly differs: readonly string[];
  /** What the card must say, as it was signed: fields for people to compare; empty when nothing can be trusted. */
  readonly says: readonly { readonly name: string; readonly value: string }[];
  readonly seq: number | null;
}

export interface PaperTrust {
  /** Keys of the loft, in their text form. */
  readonly keys: readonly string[];
  readonly checkSignature: CheckSignature;
  /** The fact with this number from the journal or an export: its bytes; null where none is at hand. */
  readonly factBytes: (seq: number) => Promise<Uint8Array | null>;
}

export async function verifyPaper(text: string, trust: PaperTrust): Promise<PaperVerdict> {
  const paper = readPaper(text);
  if (paper === null) return wrong('This is no card’s code, or it was misread. Scan it again.', null);
  const { origin, size, seq, leaf, path, line, keyId, signature } = paper;
  const root = rootOfPath({ index: seq, size, leaf, path });
  if (root === null) return wrong('The proof on the card does not fit its own numbers. It was altered.', seq);
  const key = trust.keys.map(readKey).find((one) => one?.name === origin && one.id === keyId) ?? null;
  if (key === null) return wrong(`The card is of ${origin}, key ${keyId}, which is none of the keys known here.`, seq);
  const signed = `${origin}\n${size}\n${btoa(String.fromCharCode(...root))}\n${line}\n`;
  const sound = await trust.checkSignature(key.publicKey, new TextEncoder().encode(signed), signature);
  if (sound === null) return wrong('This computer cannot check Ed25519 signatures. Use a newer one.', seq);
  if (!sound) return wrong('The signature does not fit. The card or its code was altered or forged.', seq);
  const says = saysOf(line);
  const bytes = await trust.factBytes(seq);
  if (bytes === null) return { genuine: true, differs: [], says, seq };
  if (hexAt(leafOf(bytes)) === hexAt(leaf)) return { genuine: true, differs: [], says, seq };
  return {
    genuine: false,
    differs: [`Fact ${seq} of the journal is not the one that the card was made from.`],
    says,
    seq,
  };
}

/** "card; fact 12; packed ...; last ...; by ...; bag ... / canopy ..." */
function saysOf(line: string): PaperVerdict['says'] {
  const [mark, , packed = '', due = '', by = '', serials = ''] = line.split('; ');
  if (mark !== 'card') return [{ name: 'Signed line', value: line }];
  const value = (text: string): string => text.slice(text.indexOf(' ') + 1);
  // Earlier cards say "due" and the day of the interval, which an exclusive rule counts as overdue.
  const until = due.startsWith('last ') ? 'Last day of use' : 'Next due';
  return [
    { name: 'Packed on', value: value(packed) },
    { name: until, value: value(due) },
    { name: 'Signed by certificate', value: value(by) },
    ...serials.split(' / ').map((one) => ({ name: one.split(' ')[0] ?? 'Serial', value: value(one) })),
  ];
}

function wrong(why: string, seq: number | null): PaperVerdict {
  return { genuine: false, differs: [why], says: [], seq };
}
