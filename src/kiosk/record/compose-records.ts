/** Joins the records page to this browser: store, seals, folder for copies, downloads. */
import type { LoftSettings } from '../../domain/loft';
import { createCheckpointSigner, makeKeyName } from '../../record/seal/checkpoint-signer';
import type { Store } from '../../record/store/store';
import { pinFits } from '../pin/slow-hash';
import { newId, now } from '../clock';
import { createArchive } from './archive';
import { browserHost, createBackup, rememberIn } from './backup';
import { Records } from './records';

/** Databases of their own: what proves the journal, and what is only a setting, do not lie in it. */
const SEALS = 'seals-of-stowcall';
const FOLDER = 'folder-of-stowcall';
/** Long enough for the browser to begin with the file. */
const HELD_MS = 60_000;

export function composeRecords(store: Store, settings: LoftSettings, onChange: () => void): Records {
  const signer = createCheckpointSigner({ name: SEALS, keyName: makeKeyName(settings.name, settings.table, newId()) });
  const archive = createArchive(store, signer);
  const backup = createBackup(rememberIn(FOLDER), browserHost());
  return new Records({ store, signer, archive, backup, table: settings.table, now, save: download, pinFits }, onChange);
}

function download(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: 'application/x-ndjson' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), HELD_MS);
}
