/** The enrolment of a voice: no part of a pack, and nothing of it becomes a fact. */
import type { EnrolPage } from '../enrol/enrol-page';
import type { Mode } from './mode';
import type { Table } from './table';

/** Begins with the badge; never beside a pack. */
export function teachVoice(table: Table): void {
  const { voices } = table;
  if (!table.isFree() || voices === null) return;
  const page = voices.enrol(
    table.files.loft(),
    () => table.refresh(),
    () => table.toStart(null),
  );
  table.enter(enrolMode(table, page));
}

function enrolMode(table: Table, page: EnrolPage): Mode {
  return {
    screen: 'enrol',
    scene: () => {
      const enrol = page.view();
      const line = page.line();
      return {
        view: { screen: 'enrol', enrol },
        prompt: enrol.prompt,
        opening: line === null ? null : { line },
        // The lines change quickly, and it must be possible to stop at any time.
        atOnce: ['finish'],
      };
    },
    command: (command) => page.command(command),
    sighted: (sighting) => page.sighted(sighting),
    leave: () => table.toStart(null),
    sampled: (sample) => page.sampled(sample),
  };
}
