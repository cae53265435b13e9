/** The records page. Reading, checking and copying change nothing, so no badge is asked for. */
import type { RecordsPage } from '../record/records';
import { IGNORED, type Mode } from './mode';
import type { Table } from './table';

/**
 * Opens the page over what goes on now: the start screen, or a pack, which stays open behind it. Nothing on the page can
 * change a record, and the pack goes on where it was.
 */
export async function showRecords(table: Table): Promise<void> {
  const [records, now] = [table.records(), table.now()];
  const pack = now.screen === 'pack' ? now : null;
  if ((pack === null && now.screen !== 'start') || table.isEntering || records === null) return;
  pack?.scene()?.pin?.cancel();
  table.enter(recordsMode(table, records, pack));
  records.reprints.know(table.files.loft().people);
  table.hush();
  await records.refresh();
}

function recordsMode(table: Table, records: RecordsPage, behind: Mode | null): Mode {
  return {
    screen: 'records',
    scene: () => {
      const view = { screen: 'records', records: records.current() } as const;
      return { view, prompt: null, opening: null, pin: records.restoring.pin };
    },
    command: IGNORED,
    sighted: (sighting) => records.sighted(sighting, table.files.loft()),
    leave: () => (behind === null ? table.toStart(null) : table.enter(behind)),
    paper: (text) => void records.card(text),
  };
}
