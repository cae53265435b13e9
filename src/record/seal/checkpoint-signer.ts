/** Signs where the journal stands and keeps every checkpoint: what was signed once can never be taken back unseen. */
import { ok, refused, type Result } from '../../domain/result';
import { makeCheckpointText, UNSIGNED_LINE } from '../chain/checkpoint';
import { makeHashHex, parseHashHex } from '../chain/hash';
import { makeKey, makeKeyText, makeNote, parseNote } from '../chain/note';
import { parseSealedCheckpoint } from '../chain/sealed-checkpoint';
import { makeUtf8 } from '../chain/utf8';
import type { Head } from '../ledger';
import { makeKeyPair, publicBytes, sign } from './ed25519';
import { openCheckpointDb, type KeyRow, type CheckpointDb } from './checkpoint-db';

export type SealFailure = 'no-storage' | 'other-root' | 'not-a-hash' | 'rolled-back';

export interface Sealed {
  /** The signed note, or the bare text marked as unsigned. */
  readonly note: string;
  readonly signed: boolean;
}

export interface CheckpointSigner {
  /** Every key that checkpoints here are signed with, the present one last; none where this browser cannot sign. */
  keys(): Promise<Result<readonly string[], SealFailure>>;
  /** The key that this kiosk itself signs with; null where its browser cannot sign. */
  own(): Promise<Result<string | null, SealFailure>>;
  /** Whether a journal that stands at `now` can be the one that was sealed here: refused when it was rolled back. */
  stands(now: Head): Promise<Result<void, SealFailure>>;
  /**
   * Signs this head and keeps it durably. A head of the same size and another root was rewritten, and a journal (it
   * stands at `now`) that is shorter than what was sealed was rolled back: both are refused.
   */
  seal(head: Head, extensions?: readonly string[], now?: Head): Promise<Result<Sealed, SealFailure>>;
  /** The newest checkpoint's size and root; null for none. */
  newest(): Promise<Result<Head | null, SealFailure>>;
  /** Sets the checkpoints beyond `size` aside: an older copy was restored all the same. They stay kept, as lost. */
  setAside(size: number): Promise<Result<void, SealFailure>>;
  /** Every checkpoint that was set aside, in the order in which that was done. */
  lost(): Promise<Result<readonly Head[], SealFailure>>;
  /** Every checkpoint, oldest first. */
  all(): Promise<Result<readonly string[], SealFailure>>;
  /** Takes over checkpoints and keys of a restored journal; checkpoints that are there already stay as they are. */
  keep(notes: readonly string[], keys: readonly string[]): Promise<Result<void, SealFailure>>;
}

export interface CheckpointSignerOptions {
  /** Name of the database. */
  readonly name: string;
  /** Name of the key that is made when there is none yet. */
  readonly keyName: string;
}

/** Makes the signer; nothing is touched before its first use. */
export function createCheckpointSigner(options: CheckpointSignerOptions): CheckpointSigner {
  return new KeptCheckpointSigner(options);
}

/** A name for a new key: loft and table for people, a random part so that no two kiosks share it. */
export function makeKeyName(loft: string, table: string, random: string): string {
  const plain = (text: string): string =>
    text
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 60) || 'unnamed';
  return `stowcall/${plain(loft)}/${plain(table)}/${plain(random).slice(0, 12)}`;
}

class KeptCheckpointSigner implements CheckpointSigner {
  private db: Promise<CheckpointDb> | null = null;

  constructor(private readonly options: CheckpointSignerOptions) {}

  keys() {
    return this.with(async (db) => {
      const own = await keyText(await this.keyRow(db));
      const earlier = (await db.getAll('keys')).map(({ key }) => key).filter((key) => key !== own);
      return ok(own === null ? earlier : [...earlier, own]);
    });
  }

  own() {
    return this.with(async (db) => ok(await keyText(await this.keyRow(db))));
  }

  stands(now: Head) {
    return this.with((db) => standing(db, now));
  }

  seal(head: Head, extensions: readonly string[] = [], now: Head = head) {
    return this.with(async (db) => {
      const root = parseHashHex(head.root);
      if (!root.ok) return root;
      const stands = await standing(db, now);
      if (!stands.ok) return stands;
      const before = await db.get('checkpoints', head.size);
      if (before !== undefined) {
        const text = textOf(before.note);
        if (text.root !== head.root) return rewritten(head.size);
        // The same head needs no second signature, unless a card's lines are to stand below it that do not yet.
        const same = text.extensions.join('\n') === extensions.join('\n');
        if (same || extensions.length === 0) return ok(sealedOf(before.note));
      }
      const { name, pair } = await this.keyRow(db);
      const lines = pair === null ? [...extensions, UNSIGNED_LINE] : extensions;
      const text = makeCheckpointText({ origin: name, size: head.size, root: root.value, extensions: lines });
      const note = pair === null ? text : await signText(name, pair, text);
      const tx = db.transaction('checkpoints', 'readwrite', { durability: 'strict' });
      await Promise.all([tx.store.put({ size: head.size, note }), tx.done]);
      return ok(sealedOf(note));
    });
  }

  all() {
    return this.with(async (db) => ok((await db.getAll('checkpoints')).map(({ note }) => note)));
  }

  newest() {
    return this.with(async (db) => {
      const last = (await db.getAll('checkpoints')).at(-1);
      return ok(last === undefined ? null : headIn(last.note));
    });
  }

  setAside(size: number) {
    return this.with(async (db) => {
      const tx = db.transaction(['checkpoints', 'lost'], 'readwrite', { durability: 'strict' });
      const checkpoints = tx.objectStore('checkpoints');
      for (const row of await checkpoints.getAll(IDBKeyRange.lowerBound(size, true))) {
        await tx.objectStore('lost').add(row);
        await checkpoints.delete(row.size);
      }
      await tx.done;
      return ok(undefined);
    });
  }

  lost() {
    return this.with(async (db) => ok((await db.getAll('lost')).map(({ note }) => headIn(note))));
  }

  keep(notes: readonly string[], keys: readonly string[]) {
    return this.with(async (db) => {
      const tx = db.transaction(['checkpoints', 'keys'], 'readwrite', { durability: 'strict' });
      const checkpoints = tx.objectStore('checkpoints');
      for (const note of notes) {
        const { size } = textOf(note);
        if ((await checkpoints.get(size)) === undefined) await checkpoints.put({ size, note });
      }
      for (const key of keys) await tx.objectStore('keys').put({ key });
      await tx.done;
      return ok(undefined);
    });
  }

  /** The key, made at its first use. */
  private async keyRow(db: CheckpointDb): Promise<KeyRow> {
    const found = await db.get('key', 'key');
    if (found !== undefined) return found;
    const pair = await makeKeyPair();
    const row: KeyRow = { id: 'key', name: this.options.keyName, pair: pair.ok ? pair.value : null };
    const tx = db.transaction('key', 'readwrite', { durability: 'strict' });
    // Another page may have made one meanwhile; the first one stays.
    const there = await tx.store.get('key');
    if (there === undefined) await tx.store.put(row);
    await tx.done;
    return there ?? row;
  }

  private async with<T>(work: (db: CheckpointDb) => Promise<Result<T, SealFailure>>): Promise<Result<T, SealFailure>> {
    try {
      this.db ??= openCheckpointDb(this.options.name);
      return await work(await this.db);
    } catch (error) {
      this.db = null;
      return refused('no-storage', `The checkpoint cannot be kept (${String(error)}). Free some room, then try again.`);
    }
  }
}

/** Every seal that was kept lies within the journal, and the one of its present size has its root. */
async function standing(db: CheckpointDb, now: Head): Promise<Result<void, SealFailure>> {
  const newest = (await db.getAllKeys('checkpoints')).at(-1) ?? 0;
  if (newest > now.size) {
    return refused(
      'rolled-back',
      `This kiosk has sealed ${newest} facts, and the journal holds only ${now.size}: the last ${newest - now.size} are ` +
        'missing. Nothing is sealed on top of that. Look for a newer copy of the journal, and call the lead.',
    );
  }
  const same = await db.get('checkpoints', now.size);
  return same !== undefined && textOf(same.note).root !== now.root ? rewritten(now.size) : ok(undefined);
}

async function keyText({ name, pair }: KeyRow): Promise<string | null> {
  return pair === null ? null : makeKeyText(makeKey(name, await publicBytes(pair.publicKey)));
}

async function signText(name: string, pair: CryptoKeyPair, text: string): Promise<string> {
  const { keyId } = makeKey(name, await publicBytes(pair.publicKey));
  return makeNote({ text, signatures: [{ name, keyId, signature: await sign(pair.privateKey, makeUtf8(text)) }] });
}

function sealedOf(note: string): Sealed {
  return { note, signed: parseNote(note).ok };
}

/** Size, root and further lines of a stored checkpoint; throws for what is none, which the caller turns into a refusal. */
function textOf(note: string): { size: number; root: string; extensions: readonly string[] } {
  const stored = parseSealedCheckpoint(note);
  if (!stored.ok) throw new Error(stored.detail);
  const { size, root, extensions } = stored.value.checkpoint;
  return { size, root: makeHashHex(root), extensions: extensions.filter((line) => line !== UNSIGNED_LINE) };
}

function headIn(note: string): Head {
  const { size, root } = textOf(note);
  return { size, root };
}

function rewritten(size: number): Result<never, SealFailure> {
  return refused(
    'other-root',
    `The journal had another root when it held ${size} facts: something was rewritten. Export it and call the lead.`,
  );
}
