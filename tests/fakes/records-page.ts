/** A records page on which nothing happens. */
import { NOT_LOOKED_AT, type RecordsPage } from '../../src/kiosk/record/records';
import { reprintsOf } from './reprints';
import { nothingToRestore } from './restoring';

const quiet = (): Promise<void> => Promise.resolve();

export function quietRecords(): RecordsPage {
  return {
    current: () => NOT_LOOKED_AT,
    trouble: () => null,
    refresh: quiet,
    exportAll: quiet,
    verify: quiet,
    restore: quiet,
    restoreOffered: quiet,
    restoring: nothingToRestore(),
    reprints: reprintsOf([]),
    sighted: () => undefined,
    chooseFolder: quiet,
    card: quiet,
    closed: quiet,
    sealed: () => Promise.resolve({ state: 'failed', why: '' }),
  };
}
