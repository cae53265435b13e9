/** Putting a journal back from a copy: what can be, who did it, and what becomes of seals that know of more. */
import { LOFT_STREAM, type FactBody, type FactDraft } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import { ok, refused, type Result } from '../../domain/result';
import { parseExportText, type ExportFile } from '../../record/chain/export-file';
import { leafHash, makeHashHex } from '../../record/chain/hash';
import { parseSealedCheckpoint } from '../../record/chain/sealed-checkpoint';
import { createTree } from '../../record/chain/tree';
import type { Head, LedgerFailure } from '../../record/ledger';
import { checkSignature } from '../../record/seal/ed25519';
import type { SealFailure, CheckpointSigner } from '../../record/seal/checkpoint-signer';
import type { Store } from '../../record/store/store';
import { verifyRecord } from '../../record/verify/verify-record';

export type ArchiveFailure = LedgerFailure | SealFailure | 'not-signed' | 'not-sound' | 'not-empty';

/** A file that can be put back here. */
export interface Restorable {
  readonly file: ExportFile;
  /** The newest seal of this kiosk, where it knows of more than the file holds; null where it does not. */
  readonly behind: Head | null;
}

/** Whose act it was. */
export interface RestoredBy {
  readonly by: string;
  readonly sighting: string;
  readonly at: Instant;
  readonly pin: boolean;
  /** The people file by which it was allowed. */
  readonly people: Extract<FactBody, { kind: 'peopleInForce' }>;
}

/** Refused for what is unsound, holds one pack, does not go into a journal that has facts, or contradicts a seal. */
export async function checkRestorable(
  store: Store,
  signer: CheckpointSigner,
  bytes: Uint8Array,
): Promise<Result<Restorable, ArchiveFailure>> {
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
  const head = await store.head();
  if (head.ok && head.value.size > 0) {
    return refused('not-empty', 'This kiosk has records already, and nothing is written over them. Use an empty one.');
  }
  return beside(signer, file.value);
}

/** Beside seals that know of more, an older copy must not pass for all that there was; one that forks is no copy of it. */
async function beside(signer: CheckpointSigner, file: ExportFile): Promise<Result<Restorable, ArchiveFailure>> {
  const [notes, newest] = [await signer.all(), await signer.newest()];
  if (!notes.ok) return notes;
  if (!newest.ok) return newest;
  const tree = createTree();
  for (const { bytes } of file.facts) tree.append(leafHash(bytes));
  for (const note of notes.value) {
    const stored = parseSealedCheckpoint(note);
    if (!stored.ok) continue;
    const { size, root } = stored.value.checkpoint;
    if (size > file.head.size || makeHashHex(tree.root(size)) === makeHashHex(root)) continue;
    return refused(
      'other-root',
      `This kiosk has sealed ${size} facts that are others than the first ${size} of this file: it is the copy of ` +
        'another journal, or something in it was rewritten. Look for another copy, and call the lead.',
    );
  }
  const isOlder = newest.value !== null && newest.value.size > file.head.size;
  return ok({ file, behind: isOlder ? newest.value : null });
}

/** Facts, and who put them back, in one write; then the seals. */
export async function restore(
  store: Store,
  signer: CheckpointSigner,
  { file, behind, by, sighting, at, pin, people }: Restorable & RestoredBy,
): Promise<Result<Head, ArchiveFailure>> {
  const body: FactBody = {
    kind: 'restored',
    by,
    sighting,
    ...file.head,
    ...(pin ? { pin } : {}),
    ...(behind === null ? {} : { behind }),
  };
  const drafts: readonly FactDraft[] = [
    { pack: LOFT_STREAM, at, by, body },
    { pack: LOFT_STREAM, at, by: null, body: people },
  ];
  const restored = await store.restore(file, drafts);
  if (!restored.ok) return restored;
  const kept = await signer.keep(file.checkpoints, file.keys);
  if (!kept.ok) return kept;
  const aside = behind === null ? ok(undefined) : await signer.setAside(file.head.size);
  return aside.ok ? restored : aside;
}

/** A journal that a lead restored from an older copy is not taken for one that was rolled back unseen. */
export async function stands(store: Store, signer: CheckpointSigner): Promise<Result<void, ArchiveFailure>> {
  const head = await store.head();
  if (!head.ok) return head;
  const standing = await signer.stands(head.value);
  if (standing.ok || standing.reason !== 'rolled-back') return standing;
  const [stream, newest] = [await store.read(LOFT_STREAM), await signer.newest()];
  const last = stream.ok ? stream.value.findLast(({ body }) => body.kind === 'restored') : undefined;
  if (last?.body.kind !== 'restored' || !newest.ok) return standing;
  const { behind, size } = last.body;
  // Only while the very seal is still there of which the fact says that it was known.
  if (behind === undefined || behind.size !== newest.value?.size || behind.root !== newest.value.root) return standing;
  const aside = await signer.setAside(size);
  return aside.ok ? signer.stands(head.value) : aside;
}
