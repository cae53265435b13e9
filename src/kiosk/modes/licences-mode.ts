/** The licences of everything that the kiosk is built from. */
import type { Scene } from './scene';
import { IGNORED, type Mode } from './mode';
import type { Table } from './table';

/** Shows them when they have come, unless something else was begun meanwhile. */
export async function showLicences(table: Table): Promise<void> {
  const licences = await table.parts.loadLicences();
  if (!table.isFree()) return;
  const scene: Scene = { view: { screen: 'licences', licences }, prompt: null, opening: null };
  const mode: Mode = {
    screen: 'licences',
    scene: () => scene,
    command: IGNORED,
    sighted: IGNORED,
    leave: () => table.toStart(null),
  };
  table.hush();
  table.enter(mode);
}
