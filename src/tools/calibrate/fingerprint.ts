/** Tells one state of the ear from another, so that searches are kept no longer than they are true. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** What decides on a search, or only carries it from place to place, does not change what it finds. */
const NOT_SEARCHED = /certainty|decider|service|server|listener|opening|results|grammars/;

/** Of everything in the ear's folder that decides what a search finds, and of `more`. */
export function fingerprintOf(folder: string, more: unknown): string {
  const files = readdirSync(folder).filter((file) => /^(recognition-|fourier)/.test(file) && !NOT_SEARCHED.test(file));
  const hash = createHash('sha256').update(JSON.stringify(more));
  for (const file of files.sort()) hash.update(readFileSync(join(folder, file)));
  return hash.digest('hex');
}
