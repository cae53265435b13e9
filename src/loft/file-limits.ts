/** How large the files of a loft may be, and how many: one place for whoever fetches, checks or reads them. */

/** Files of a loft, of all kinds together. */
export const FILES_MAX = 500;

/** 1 MB, as characters: far above any honest procedure, far below what would stall a kiosk. */
const USUAL_MAX = 1_000_000;

/** Room for as many assemblies as are allowed, at about 1,000 characters each. */
export const ASSEMBLIES_FILE_MAX = 6_000_000;

/** The most characters of the file with this name. */
export function longestFile(path: string): number {
  return /(^|\/)assemblies\.ya?ml$/.test(path) ? ASSEMBLIES_FILE_MAX : USUAL_MAX;
}

/** What stands where bytes were no UTF-8: the text that was written is lost, so nobody may work by it. */
export const NO_CHARACTER = '\uFFFD';
