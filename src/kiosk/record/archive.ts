/** The kiosk's record as a whole: journal and seals together, for export, restoring, checking and printed cards. */
import type { Fact } from '../../domain/fact';
import { ok, refused, type Result } from '../../domain/result';
import { makeExportText } from '../../record/chain/export-file';
import { makeHashHex } from '../../record/chain/hash';
import { makeCardLine, makePaperText } from '../../record/chain/paper';
import { parseSealedCheckpoint } from '../../record/chain/sealed-checkpoint';
import type { Head } from '../../record/ledger';
import { checkSignature } from '../../record/seal/ed25519';
import type { CheckpointSigner } from '../../record/seal/checkpoint-signer';
import type { Store } from '../../record/store/store';
import { verifyPaper, type PaperVerdict } from '../../record/verify/verify-paper';
import { verifyRecord, type RecordVerdict } from '../../record/verify/verify-record';
import { checkRestorable, restore, stands } from './restore';
import type { ArchiveFailure, Restorable, RestoredBy } from './restore';

export type { ArchiveFailure } from './restore';

export interface Archive {
  /** Seals the journal with this signed record in it; the text of the card's code. */
  sealRecord(signed: Fact): Promise<Result<string, ArchiveFailure>>;
  /** The whole journal, or one pack, with a checkpoint of the present head. */
  exportText(pack: string | null): Promise<Result<string, ArchiveFailure>>;
  /** Everything that is wrong with a file. Its checkpoints may be signed with any key that the file names. */
  verify(bytes: Uint8Array): Promise<RecordVerdict>;
  /** Whether a card is genuine, by its code and this kiosk's journal. */
  verifyCard(text: string): Promise<PaperVerdict>;
  /** Whether this file can be restored here; nothing is touched. */
  check(bytes: Uint8Array): Promise<Result<Restorable, ArchiveFailure>>;
  /** Puts what was checked into an empty journal, with the fact of who did it behind it: all of it or nothing. */
  restore(what: Restorable, by: RestoredBy): Promise<Result<Head, ArchiveFailure>>;
  /** Whether the journal can be the one that was sealed here; finishes a restoring that a power cut broke off. */
  stands(): Promise<Result<void, ArchiveFailure>>;
}

export function createArchive(store: Store, signer: CheckpointSigner): Archive {
  return {
    sealRecord: (signed) => sealRecord(store, signer, signed),
    exportText: (pack) => exportText(store, signer, pack),
    verify: (bytes) => verifyRecord(bytes, { keys: [], checkSignature }),
    verifyCard: (text) => verifyCard(store, signer, text),
    check: (bytes) => checkRestorable(store, signer, bytes),
    restore: (what, by) => restore(store, signer, { ...what, ...by }),
    stands: () => stands(store, signer),
  };
}

async function sealRecord(
  store: Store,
  signer: CheckpointSigner,
  { seq, body }: Fact,
): Promise<Result<string, ArchiveFailure>> {
  if (body.kind !== 'signed') return refused('not-signed', 'Only a signed record gets a card.');
  const claim = await store.prove(seq);
  if (!claim.ok) return claim;
  const line = makeCardLine(seq, body.record);
  // The head of the proof, and not a newer one: the journal may have grown meanwhile.
  const now = await store.head();
  if (!now.ok) return now;
  const sealed = await signer.seal({ size: claim.value.size, root: makeHashHex(claim.value.root) }, [line], now.value);
  if (!sealed.ok) return sealed;
  const stored = parseSealedCheckpoint(sealed.value.note);
  const [signature] = stored.ok ? stored.value.signatures : [];
  if (!stored.ok || signature === undefined) {
    return refused('not-signed', 'This browser cannot sign checkpoints, so the card carries no proof.');
  }
  return ok(makePaperText({ origin: stored.value.checkpoint.origin, claim: claim.value, line, signature }));
}

async function exportText(
  store: Store,
  signer: CheckpointSigner,
  pack: string | null,
): Promise<Result<string, ArchiveFailure>> {
  const file = await store.export(pack);
  if (!file.ok) return file;
  const now = await store.head();
  if (!now.ok) return now;
  const sealed = await signer.seal(file.value.head, [], now.value);
  if (!sealed.ok) return sealed;
  const keys = await signer.keys();
  const all = await signer.all();
  if (!keys.ok) return keys;
  if (!all.ok) return all;
  // One pack's file shows only that it belongs to the head; the earlier heads say nothing about it.
  const checkpoints = pack === null ? upTo(all.value, file.value.head.size) : [sealed.value.note];
  const used = pack === null ? keys.value : keys.value.slice(-1);
  return ok(makeExportText({ ...file.value, checkpoints, keys: used }));
}

/** The journal may have grown, and been sealed, since it was read. */
function upTo(notes: readonly string[], size: number): readonly string[] {
  return notes.filter((note) => {
    const stored = parseSealedCheckpoint(note);
    return stored.ok && stored.value.checkpoint.size <= size;
  });
}

async function verifyCard(store: Store, signer: CheckpointSigner, text: string): Promise<PaperVerdict> {
  const [own, all] = [await signer.own(), await signer.keys()];
  const mine = own.ok && own.value !== null ? [own.value] : [];
  const factBytes = async (seq: number): Promise<Uint8Array | null> => {
    const bytes = await store.bytesOf(seq);
    return bytes.ok ? bytes.value : null;
  };
  const verdict = await verifyPaper(text, { keys: mine, checkSignature, factBytes });
  if (verdict.genuine) return (await lacksIts(verdict.seq, factBytes)) ?? verdict;
  for (const key of all.ok ? all.value : []) {
    if (mine.includes(key)) continue;
    // Keys that came with a restored file: anybody could have written them into it.
    const foreign = await verifyPaper(text, { keys: [key], checkSignature, factBytes });
    if (!foreign.genuine) continue;
    const whose = `It fits the key ${key}, which came with a restored file: whose it is is not known here. Compare it with the key that the loft wrote down.`;
    return { ...foreign, genuine: false, differs: [whose] };
  }
  return verdict;
}

/** A card of this kiosk's own whose fact is not here any more shows that records are missing; null where it is here. */
async function lacksIts(
  seq: number | null,
  factBytes: (seq: number) => Promise<Uint8Array | null>,
): Promise<PaperVerdict | null> {
  if (seq === null || (await factBytes(seq)) !== null) return null;
  const why = `This kiosk has signed this card, but its journal has no fact ${seq}: records are missing here. Call the lead.`;
  return { genuine: false, differs: [why], says: [], seq };
}
