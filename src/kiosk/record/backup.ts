/**
 * Copies of the whole journal in a folder that the loft chose, one for each month, and a download where the browser
 * knows no folders. A copy is replaced only by a newer whole one, and only when that is written to its end.
 */
import { openDB, type DBSchema } from 'idb';
import { ok, refused, type Result } from '../../domain/result';
import type { GivenFile } from '../../screens/contract/records-view';

/** The part of a directory handle that is used here (File System Access). */
export interface Folder {
  readonly name: string;
  queryPermission?(options: { mode: 'readwrite' }): Promise<string>;
  requestPermission?(options: { mode: 'readwrite' }): Promise<string>;
  keys?(): AsyncIterable<string>;
  removeEntry?(name: string): Promise<void>;
  getFileHandle(
    name: string,
    options: { create: boolean },
  ): Promise<{
    getFile?(): Promise<GivenFile>;
    createWritable(): Promise<{ write(text: string): Promise<void>; close(): Promise<void>; abort(): Promise<void> }>;
  }>;
}

export type BackupFailure = 'not-allowed' | 'not-written';

export interface Backup {
  /** Name of the chosen folder; null for none. */
  folder(): Promise<string | null>;
  readonly canChoose: boolean;
  /** Asks the person for a folder and remembers it; false when none was chosen. */
  choose(): Promise<boolean>;
  /** Names of the files in the chosen folder, before anything is written; none where it cannot be looked at. */
  look(): Promise<Result<readonly string[], BackupFailure>>;
  /** A file in the chosen folder. */
  read(file: string): Promise<Result<GivenFile, BackupFailure>>;
  /** Takes older copies away, of which a newer one was written. What cannot be taken away stays. */
  tidy(files: readonly string[]): Promise<void>;
  /** Writes a copy where one is wanted; null where no folder was chosen. */
  write(file: string, text: string): Promise<Result<string | null, BackupFailure>>;
}

interface FolderSchema extends DBSchema {
  folder: { key: string; value: Folder };
}

/** What the host offers; given by the caller so that it can be tested without a browser. */
export interface BackupHost {
  /** Null where the browser knows no folders. */
  readonly pick: (() => Promise<Folder>) | null;
}

/** The browser's own. */
export function browserHost(): BackupHost {
  const pick = (window as { showDirectoryPicker?: (options: object) => Promise<Folder> }).showDirectoryPicker;
  return { pick: pick === undefined ? null : () => pick.call(window, { id: 'stowcall-backup', mode: 'readwrite' }) };
}

/** Where the chosen folder is remembered. */
export interface FolderMemory {
  get(): Promise<Folder | null>;
  set(folder: Folder): Promise<void>;
}

/** In a small database of this name; a directory handle can be kept there and nowhere else. */
export function rememberIn(name: string): FolderMemory {
  const open = () => openDB<FolderSchema>(name, 1, { upgrade: (db) => void db.createObjectStore('folder') });
  return {
    async get() {
      const db = await open();
      const folder = await db.get('folder', 'folder');
      db.close();
      return folder ?? null;
    },
    async set(folder) {
      const db = await open();
      await db.put('folder', folder, 'folder');
      db.close();
    },
  };
}

export function createBackup(memory: FolderMemory, host: BackupHost): Backup {
  const remembered = (): Promise<Folder | null> => memory.get().catch(() => null);
  return {
    folder: async () => (await remembered())?.name ?? null,
    canChoose: host.pick !== null,
    async choose() {
      if (host.pick === null) return false;
      try {
        await memory.set(await host.pick());
        return true;
      } catch {
        // The person closed the dialogue, or the browser refused it: nothing has changed.
        return false;
      }
    },
    async look() {
      const folder = await remembered();
      if (folder?.keys === undefined) return ok([]);
      const allowed = await allowedIn(folder);
      return allowed.ok ? namesIn(folder.keys(), folder.name) : allowed;
    },
    async read(file) {
      const folder = await remembered();
      try {
        const handle = await folder?.getFileHandle(file, { create: false });
        const found = await handle?.getFile?.();
        if (found !== undefined) return ok(found);
      } catch {
        // Said below.
      }
      return refused('not-written', `${file} cannot be read. Use "Restore from a file" and choose it there.`);
    },
    async tidy(files) {
      const folder = await remembered();
      for (const file of files) await folder?.removeEntry?.(file).catch(() => undefined);
    },
    async write(file, text) {
      const folder = await remembered();
      return folder === null ? ok(null) : writeTo(folder, file, text);
    },
  };
}

async function allowedIn(folder: Folder): Promise<Result<void, BackupFailure>> {
  const mode = { mode: 'readwrite' as const };
  const asked = (await folder.queryPermission?.(mode)) ?? 'granted';
  if (asked !== 'granted' && (await folder.requestPermission?.(mode).catch(() => 'denied')) !== 'granted') {
    return refused('not-allowed', `The folder ${folder.name} must be allowed again: choose it on the records page.`);
  }
  return ok(undefined);
}

async function namesIn(
  entries: AsyncIterable<string>,
  folder: string,
): Promise<Result<readonly string[], BackupFailure>> {
  try {
    const names: string[] = [];
    for await (const name of entries) names.push(name);
    return ok(names);
  } catch (error) {
    return refused(
      'not-written',
      `The folder ${folder} cannot be looked at (${String(error)}). Choose another folder.`,
    );
  }
}

async function writeTo(folder: Folder, file: string, text: string): Promise<Result<string | null, BackupFailure>> {
  const allowed = await allowedIn(folder);
  if (!allowed.ok) return allowed;
  try {
    const handle = await folder.getFileHandle(file, { create: true });
    const writable = await handle.createWritable();
    try {
      await writable.write(text);
      await writable.close();
    } catch (error) {
      await writable.abort().catch(() => undefined);
      throw error;
    }
    return ok(`${folder.name}/${file}`);
  } catch (error) {
    return refused(
      'not-written',
      `The copy could not be written to ${folder.name} (${String(error)}). Plug it in, or choose another folder.`,
    );
  }
}
