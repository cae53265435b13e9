/** Where the kiosk's signing key and the checkpoints lie: a small database beside the journal's. */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';

export interface KeyRow {
  readonly id: 'key';
  /** Name of the key and origin of every checkpoint. */
  readonly name: string;
  /** The private half is not extractable; null where the browser has no Ed25519. */
  readonly pair: CryptoKeyPair | null;
}

export interface CheckpointRow {
  readonly size: number;
  /** The signed note; for an unsigned one only its text. */
  readonly note: string;
}

interface CheckpointSchema extends DBSchema {
  key: { key: string; value: KeyRow };
  checkpoints: { key: number; value: CheckpointRow };
  /** Keys of kiosks whose journal was restored here. */
  keys: { key: string; value: { readonly key: string } };
  /** Checkpoints of what was lost when an older copy was restored: kept, and never contradicted. */
  lost: { key: number; value: CheckpointRow };
}

export type CheckpointDb = IDBPDatabase<CheckpointSchema>;

const VERSION = 2;

/** Opens or creates it; rejects where the browser gives no storage. */
export function openCheckpointDb(name: string): Promise<CheckpointDb> {
  return openDB<CheckpointSchema>(name, VERSION, {
    upgrade(db, from) {
      if (from < 1) {
        db.createObjectStore('key', { keyPath: 'id' });
        db.createObjectStore('checkpoints', { keyPath: 'size' });
        db.createObjectStore('keys', { keyPath: 'key' });
      }
      db.createObjectStore('lost', { autoIncrement: true });
    },
    blocking(_current, _next, event) {
      (event.target as IDBDatabase).close();
    },
  });
}
