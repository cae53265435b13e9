/** Acts that do nothing: for screens that are only looked at. */
import type { Acts } from '../../src/screens/contract/acts';

export const NO_ACTS: Acts = {
  command: () => undefined,
  rehearse: () => undefined,
  showLicences: () => undefined,
  records: {
    show: () => undefined,
    exportAll: () => undefined,
    verify: () => undefined,
    restore: () => undefined,
    chooseFolder: () => undefined,
  },
  leave: () => undefined,
  retry: () => undefined,
  useNextCamera: () => undefined,
  print: () => undefined,
  teachVoice: () => undefined,
  showTags: () => undefined,
};
