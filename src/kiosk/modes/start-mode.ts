/** The start screen: a badge opens a pack, and everything else that is no pack begins here. */
import type { Sighting } from '../../domain/sighting';
import { mayOpenPack } from '../../packing/badge/open-pack';
import { hasDemonstration } from '../../packing/words/notices';
import { procedureChoices } from '../loft/loading';
import type { PackOpening } from '../pack/enter-pack';
import { IGNORED, type Mode } from './mode';
import { openPack } from './pack-mode';
import { showRecords } from './records-mode';
import type { Scene } from './scene';
import type { Table } from './table';

export interface Arrival {
  /** Why the kiosk has come back to the start; null for no reason. */
  readonly notice: string | null;
  /** Counts arrivals, so that each is spoken. */
  readonly number: number;
}

export class StartMode implements Mode {
  readonly screen = 'start';
  readonly command = IGNORED;
  /** The start screen shows the files of the moment, so they are read; each change is drawn in any case. */
  readonly files = IGNORED;

  constructor(
    private readonly table: Table,
    private readonly arrival: Arrival,
  ) {}

  scene(): Scene {
    const { files, devices, cameras, voices } = this.table;
    const loft = files.loft();
    const notice = this.arrival.notice ?? files.trouble() ?? this.table.records()?.trouble() ?? null;
    const say = `${notice === null ? '' : `${notice} `}Scan your badge.`;
    const prompt = { key: `start:${String(this.arrival.number)}`, say, show: 'Scan your badge' };
    const start = {
      loft: loft.settings.name,
      table: loft.settings.table,
      procedures: procedureChoices(loft),
      prompt,
      demonstration: hasDemonstration(loft),
      notice,
      checks: devices.checks.get(),
      refusedFiles: files.refused(),
      cameras: cameras?.view() ?? null,
      teachesVoice: voices !== null,
    };
    return { view: { screen: 'start', start }, prompt, opening: null };
  }

  sighted(sighting: Sighting): void {
    const { table } = this;
    if (table.isEntering || table.renew()) return;
    const person = mayOpenPack(table.files.loft(), sighting, sighting.at);
    if (!person.ok) return table.toStart(person.detail);
    if (sighting.meaning.kind !== 'badge') return;
    void beginPack(table, { packer: person.value.id, badgeDigest: sighting.meaning.badgeDigest });
  }

  leave(): void {
    this.table.toStart(null);
  }

  paper(text: string): void {
    // Whoever has gone back meanwhile is not told.
    void showRecords(this.table).then(() => {
      const now = this.table.now();
      if (now.screen === 'records') now.paper?.(text);
    });
  }
}

/** A new version that is installed until the first fact is stored takes over, and the badge is scanned again. */
async function beginPack(table: Table, opening: PackOpening): Promise<void> {
  const { versions, newId } = table.parts;
  const begin = async (): Promise<void> => {
    table.isEntering = false;
    const mode = await openPack(table, newId(), opening);
    await mode?.begun();
  };
  if (versions === undefined) return begin();
  table.isEntering = true;
  const hasBegun = await versions.unlessWaiting(begin);
  if (hasBegun) return;
  table.isEntering = false;
  table.renew();
}
