/** The kiosk's record as a whole: journal and seals together, for export, restoring, checking and printed cards. */
import type { Fact } from '../../domain/fact';
import { ok, refused, type Result } from '../../domain/result';
import { makeExportText, parseExportText, type ExportFile } from '../../record/chain/export-file';
import { makeHashHex } from '../../record/chain/hash';
import { makeCardLine, makePaperText } from '../../record/chain/paper';
import { parseSealedCheckpoint } from '../../record/chain/sealed-checkpoint';
import type { Head, LedgerFailure } from '../../record/ledger';
import { checkSignature } from '../../record/seal/ed25519';
import type { SealFailure, Sealer } from '../../record/seal/sealer';
import type { Store } from '../../record/store/store';
import { verifyPaper, type PaperVerdict } from '../../record/verify/verify-paper';
import { verifyRecord, type RecordVerdict } from '../../record/verify/verify-record';

export type ArchiveFailure = LedgerFailure | SealFailure | 'not-signed' | 'not-sound' | 'not-empty';

export interface Archive {
  /** Seals the journal with this signed record in it; the text of the card's code. */
  sealRecord(signed: Fact): Promise<Result<string, ArchiveFailure>>;
  /** The whole journal, or one pack, with a checkpoint of the present head. */
  exportText(pack: string | null): Promise<Result<string, ArchiveFailure>>;
  /** Everything that is wrong with a file. Its checkpoints may be signed with any key that the file names. */
  verify(bytes: Uint8Array): Promise<RecordVerdict>;
  /** Whether a card is genuine, by its code and this kiosk's journal. */
  verifyCard(text: string): Promise<PaperVerdict>;
  /** Puts a sound export of a whole journal into an empty one; the head is then the same. */
  restore(bytes: Uint8Array): Promise<Result<Head, ArchiveFailure>>;
}

export function createArchive(store: Store, sealer: Sealer): Archive {
  return {
    sealRecord: (signed) => sealRecord(store, sealer, signed),
    exportText: (pack) => exportText(store, sealer, pack),
    verify: (bytes) => verifyRecord(bytes, { keys: [], checkSignature }),
    verifyCard: (text) => verifyCard(store, sealer, text),
    restore: (bytes) => restore(store, sealer, bytes),
  };
}

async function sealRecord(store: Store, sealer: Sealer, { seq, body }: Fact): Promise<Result<string, ArchiveFailure>> {
  if (body.kind !== 'signed') return refused('not-signed', 'Only a signed record gets a card.');
  const claim = await store.prove(seq);
  if (!claim.ok) return claim;
  const line = makeCardLine(seq, body.record);
  // The head of the proof, and not a newer one: the journal may have grown meanwhile.
  const sealed = await sealer.seal({ size: claim.value.size, root: makeHashHex(claim.value.root) }, [line]);
  if (!sealed.ok) return sealed;
  const stored = parseSealedCheckpoint(sealed.value.note);
  const [signature] = stored.ok ? stored.value.signatures : [];
  if (!stored.ok || signature === undefined) {
    return refused('not-signed', 'This browser cannot sign checkpoints, so the card carries no proof.');
  }
  return ok(makePaperText({ origin: stored.value.checkpoint.origin, claim: claim.value, line, signature }));
}

async function exportText(store: Store, sealer: Sealer, pack: string | null): Promise<Result<string, ArchiveFailure>> {
  const file = await store.export(pack);
  if (!file.ok) return file;
  const sealed = await sealer.seal(file.value.head);
  if (!sealed.ok) return sealed;
  const keys = await sealer.keys();
  const all = await sealer.all();
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

async function verifyCard(store: Store, sealer: Sealer, text: string): Promise<PaperVerdict> {
  const keys = await sealer.keys();
  return verifyPaper(text, {
    keys: keys.ok ? keys.value : [],
    checkSignature,
    factBytes: async (seq) => {
      const bytes = await store.bytesOf(seq);
      return bytes.ok ? bytes.value : null;
    },
  });
}

async function restore(store: Store, sealer: Sealer, bytes: Uint8Array): Promise<Result<Head, ArchiveFailure>> {
  const verdict = await verifyRecord(bytes, { keys: [], checkSignature });
  const first = verdict.findings[0];
  if (first !== undefined) {
    return refused(
      'not-sound',
      `This file is not sound, so nothing was restored. Line ${first.line ?? '?'}: ${first.detail}`,
    );
  }
  const file = parseExportText(new TextDecoder().decode(bytes));
  if (!file.ok) return refused('not-sound', file.detail);
  if (file.value.pack !== null) {
    return refused('not-sound', 'This file holds one pack. Restore from a file of the whole journal.');
  }
  return putBack(store, sealer, file.value);
}

async function putBack(store: Store, sealer: Sealer, file: ExportFile): Promise<Result<Head, ArchiveFailure>> {
  const restored = await store.restore(file);
  if (!restored.ok) return restored;
  const kept = await sealer.keep(file.checkpoints, file.keys);
  return kept.ok ? restored : kept;
}
