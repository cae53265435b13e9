/** Copies of the journal in the folder that was chosen, or with the downloads where the browser knows no folders. */
import { copyName, isSameJournal, sizeOfCopy } from './copy-name';
import type { RecordsOutcome } from '../../screens/contract/records-view';
import type { RecordsParts } from './records-parts';
import { bad, good } from './records-words';

/** Older copies of the same journal that stay beside the newest one. */
const COPIES_KEPT = 2;

export class Copies {
  private last: string | null = null;
  private why: string | null = null;
  private found: string | null = null;

  constructor(private readonly parts: RecordsParts) {}

  /** The copy in the folder from which this empty kiosk can go on; null for none. */
  offered(): string | null {
    return this.found;
  }

  /** The kiosk is no longer empty. */
  restored(): void {
    this.found = null;
  }

  /** Why the last copy was not made; null where it was. */
  trouble(): string | null {
    return this.why;
  }

  /** Where copies go, and what came of the last one. `folder`: null where none was chosen. */
  say(folder: string | null): string {
    const last = this.last === null ? '' : ` ${this.last}`;
    if (folder !== null) return `After each signed record a copy goes to the folder ${folder}.${last}`;
    return this.parts.backup.canChoose
      ? 'No folder for copies is chosen.'
      : `After each signed record a copy goes to the downloads, since this browser knows no folders.${last}`;
  }

  /** Makes one. An empty journal never takes the place of a copy, and a shorter one never that of a longer one. */
  async make(): Promise<RecordsOutcome> {
    const { store, signer, archive, backup, table } = this.parts;
    const [head, own] = [await store.head(), await signer.own()];
    const copy = { table, key: own.ok ? own.value : null, size: head.ok ? head.value.size : 0 };
    const there = await backup.look();
    if (!there.ok) return this.notCopied(there.detail);
    const copies = there.value.filter((name) => sizeOfCopy(name) !== null);
    this.found = null;
    if (copy.size === 0 && copies.length > 0) {
      this.found = copies.toSorted((a, b) => (sizeOfCopy(a) ?? 0) - (sizeOfCopy(b) ?? 0)).at(-1) ?? null;
      return bad('This kiosk is empty, and that folder is not', [
        `It holds ${copies.join(', ')}. Nothing was written.`,
        'To go on with those records, restore the copy that holds most, or choose another one with "Restore from a file".',
      ]);
    }
    const more = copies.find((name) => isSameJournal(name, copy) && (sizeOfCopy(name) ?? 0) > copy.size);
    if (more !== undefined) {
      return this.notCopied(
        `${more} in that folder holds more than this journal, so nothing was written. Call the lead.`,
      );
    }
    const text = await archive.exportText(null);
    if (!text.ok) return this.notCopied(text.detail);
    const now = this.parts.now();
    const made = `Last copy at ${now.slice(0, 16).replace('T', ' ')}.`;
    const file = copyName(copy);
    this.why = null;
    if (!backup.canChoose) {
      // No folders in this browser: the copy goes where its downloads go.
      this.parts.save(file, text.value);
      this.last = made;
      return good('A copy was made', [`${file} lies with the downloads.`]);
    }
    const written = await backup.write(file, text.value);
    if (!written.ok) return this.notCopied(written.detail);
    this.last = written.value === null ? null : made;
    if (written.value === null) return bad('No copy was made', ['No folder is chosen.']);
    const older = copies.filter((name) => isSameJournal(name, copy) && name !== file);
    await backup.tidy(older.sort((a, b) => (sizeOfCopy(a) ?? 0) - (sizeOfCopy(b) ?? 0)).slice(0, -COPIES_KEPT));
    return good('A copy was made', [written.value]);
  }

  private notCopied(why: string): RecordsOutcome {
    this.why = why;
    this.last = why;
    return bad('No copy was made', [why]);
  }
}
