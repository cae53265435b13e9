/** The page of open tags. Taking one off is a fact, so the page needs the journal. */
import { sayLedgerFailure } from '../pack/pack-runner';
import { openTagsPage, type TagsPage } from '../tags/tags-page';
import type { Mode } from './mode';
import { openingOf } from './scene';
import type { Table } from './table';

/** Reads the journal and opens the page; never beside a pack. */
export async function showTags(table: Table): Promise<void> {
  const { parts, book, files, journal } = table;
  const { head, known } = journal;
  // Without storage the start screen says so, and no tag can be taken off.
  if (!table.isFree() || head === null) return;
  table.isEntering = true;
  const told = { onChange: () => table.refresh(), leave: () => mode?.leave() };
  let mode: Mode | null = null;
  const page = await openTagsPage({ parts, book, loft: files.loft(), head, known, ...told });
  table.isEntering = false;
  if (!page.ok) return table.toStart(`The tags cannot be read. ${sayLedgerFailure(page.reason)}`);
  mode = tagsMode(table, page.value);
  table.enter(mode);
}

function tagsMode(table: Table, page: TagsPage): Mode {
  return {
    screen: 'tags',
    scene: () => {
      const tags = page.view();
      return { view: { screen: 'tags', tags }, prompt: tags.prompt, opening: openingOf(tags.legal), pin: page.pin };
    },
    command: (command, channel) => page.command(command, channel),
    sighted: (sighting) => page.sighted(sighting),
    leave: () => {
      table.journal.head = page.head();
      table.journal.known = page.known();
      table.toStart(null);
    },
    files: (loft) => page.files(loft),
  };
}
