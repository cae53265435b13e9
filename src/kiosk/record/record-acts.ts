/** What a person can ask for on the records page, handed on to the page that is there. */
import type { RecordActs } from '../../screens/contract/records-view';
import type { RecordsPage } from './records';

export function recordActs(page: () => RecordsPage | null, show: () => void): RecordActs {
  return {
    show,
    exportAll: () => void page()?.exportAll(),
    verify: (file) => void page()?.verify(file),
    restore: (file) => void page()?.restore(file),
    restoreOffered: () => void page()?.restoreOffered(),
    restoreAllTheSame: () => page()?.restoring.insist(),
    cancelRestore: () => page()?.restoring.cancel(),
    find: (serial) => void page()?.reprints.find(serial),
    openCopy: (pack) => void page()?.reprints.open(pack),
    closeCopy: () => page()?.reprints.close(),
    chooseFolder: () => void page()?.chooseFolder(),
  };
}
