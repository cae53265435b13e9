/** Makes an export anew from facts, with all hashes, proofs and seals right: what an insider could do, key in hand. */
import type { Fact, FactBody } from '../../domain/fact';
import { makeCheckpointText } from '../../record/chain/checkpoint';
import { makeExportText, type ExportedFact, type ExportFile } from '../../record/chain/export-file';
import { sealFact } from '../../record/chain/fact-bytes';
import { makeHashHex } from '../../record/chain/hash';
import { makeKey, makeKeyText, makeNote } from '../../record/chain/note';
import { createTree } from '../../record/chain/tree';
import { makeUtf8 } from '../../record/chain/utf8';
import { publicBytes, sign } from '../../record/seal/ed25519';
import { must } from './table';

export interface Signer {
  readonly name: string;
  readonly pair: CryptoKeyPair;
}

/** The text of this signer's key. */
export async function keyTextOf({ name, pair }: Signer): Promise<string> {
  return makeKeyText(makeKey(name, await publicBytes(pair.publicKey)));
}

/** Numbers the facts anew in the order given, and makes and signs everything else to fit them. */
export async function remake(facts: readonly Fact[], signer: Signer): Promise<ExportFile> {
  const numbers = new Map(facts.map(({ seq }, index) => [seq, index]));
  const tree = createTree();
  const exported: ExportedFact[] = [];
  const checkpoints: string[] = [];
  for (const [seq, { pack, at, by, body }] of facts.entries()) {
    const { fact, bytes, leaf } = must(sealFact({ pack, at, by, body: pointing(body, numbers) }, seq));
    tree.append(leaf);
    exported.push({ fact, bytes, path: [] });
    if (body.kind === 'signed' || seq === facts.length - 1) {
      const text = makeCheckpointText({ origin: signer.name, size: seq + 1, root: tree.root(seq + 1), extensions: [] });
      checkpoints.push(await signed(text, signer));
    }
  }
  const head = { size: facts.length, root: makeHashHex(tree.root(facts.length)) };
  return { head, pack: null, facts: exported, checkpoints, keys: [await keyTextOf(signer)] };
}

/** The same as text. */
export async function remakeText(facts: readonly Fact[], signer: Signer): Promise<string> {
  return makeExportText(await remake(facts, signer));
}

/** The note for a checkpoint's text. */
export async function signed(text: string, { name, pair }: Signer): Promise<string> {
  const { keyId } = makeKey(name, await publicBytes(pair.publicKey));
  return makeNote({ text, signatures: [{ name, keyId, signature: await sign(pair.privateKey, makeUtf8(text)) }] });
}

/** What names another fact by its number goes on meaning the same one. */
export function pointing(body: FactBody, numbers: ReadonlyMap<number, number>): FactBody {
  const moved = (seq: number): number => numbers.get(seq) ?? seq;
  if (body.kind === 'corrected') return { ...body, fact: moved(body.fact) };
  if (body.kind === 'tagCleared') return { ...body, tag: moved(body.tag) };
  return body.kind === 'packClosed' ? { ...body, signed: moved(body.signed) } : body;
}
