/** Damages the browser's own files of a stored journal, and looks what the store says of it. */
import { appendFile, cp, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Head } from '../../../src/record/ledger';
import { inBrowser, newProfile, removeProfile } from './browser-process';
import { faultsOf } from './kill-runs';
import type { Inspection } from './page';

export interface DamageOutcome {
  readonly file: string;
  readonly bit: number;
  /** Twice in a row, since a browser that starts afresh at the first open must not be believed at the second. */
  readonly answers: readonly ('sound' | 'refused')[];
  /** An answer that hides the damage: fewer facts, or other ones, without a refusal. */
  readonly hidden: readonly string[];
}

export interface TornLogStart {
  readonly head: Head;
  readonly seen: Inspection;
  /** The browser no longer has the log, so nothing can have been written behind the half record. */
  readonly tornIsGone: boolean;
}

/** Where a profile keeps its IndexedDB. */
const DATABASES = 'Default/IndexedDB';
const JOURNAL = 'disk-damage';
const FACTS = 300;
const PACKS = ['pack-0', 'pack-1', 'pack-2'];

/** Stores a journal, then for each flip damages a fresh copy of it and opens that twice. */
export async function damageRuns(url: string, flips: number): Promise<readonly DamageOutcome[]> {
  const original = await newProfile();
  const copy = await newProfile();
  try {
    const head = await inBrowser(original, url, (page) =>
      page.evaluate(([name, facts]) => window.ledgerPage.fill(name, facts, 3), [JOURNAL, FACTS] as const),
    );
    const outcomes: DamageOutcome[] = [];
    for (let flip = 0; flip < flips; flip += 1) {
      await removeProfile(copy);
      await cp(original, copy, { recursive: true, verbatimSymlinks: true });
      outcomes.push(await damageOnce(copy, url, head));
    }
    return outcomes;
  } finally {
    for (const profile of [original, copy]) await removeProfile(profile);
  }
}

/**
 * What a kill between the two halves of one log record leaves: the record's head, seven bytes, at the end of the log.
 * Then two more starts with facts appended. Gives the inspection after each.
 */
export async function tornLogRuns(url: string): Promise<readonly TornLogStart[]> {
  const profile = await newProfile();
  try {
    const fill = (): Promise<Head> =>
      inBrowser(profile, url, (page) =>
        page.evaluate(([name, facts]) => window.ledgerPage.fill(name, facts, 3), [JOURNAL, 60] as const),
      );
    const starts: TornLogStart[] = [];
    let head = await fill();
    for (let start = 0; start < 3; start += 1) {
      const torn = await tearLog(profile);
      head = await fill();
      const tornIsGone = !(await logsOf(profile)).includes(torn);
      const seen = await inBrowser(profile, url, (page) =>
        page.evaluate(([name, packs]) => window.ledgerPage.inspect(name, packs), [JOURNAL, PACKS] as const),
      );
      starts.push({ head, seen, tornIsGone });
    }
    return starts;
  } finally {
    await removeProfile(profile);
  }
}

/** A record head of LevelDB's log: checksum, a length of 900, "whole record"; the record itself is missing. */
const RECORD_HEAD = Uint8Array.of(0x11, 0x22, 0x33, 0x44, 0x84, 0x03, 0x01);

/** Gives the name of the log that was torn. */
async function tearLog(profile: string): Promise<string> {
  const newest = (await logsOf(profile)).at(-1);
  if (newest === undefined) throw new Error(`There is no log in ${profile}`);
  await appendFile(join(profile, DATABASES, newest), RECORD_HEAD);
  return newest;
}

async function logsOf(profile: string): Promise<readonly string[]> {
  const files = await readdir(join(profile, DATABASES), { recursive: true });
  return files.filter((name) => name.endsWith('.log')).sort();
}

async function damageOnce(profile: string, url: string, head: Head): Promise<DamageOutcome> {
  const { file, bit } = await flipOneBit(profile);
  const answers: ('sound' | 'refused')[] = [];
  const hidden: string[] = [];
  for (let opening = 1; opening <= 2; opening += 1) {
    const seen: Inspection = await inBrowser(profile, url, (page) =>
      page.evaluate(([name, packs]) => window.ledgerPage.inspect(name, packs), [JOURNAL, PACKS] as const),
    );
    answers.push(seen.opened.ok && seen.damages.length === 0 ? 'sound' : 'refused');
    if (!seen.opened.ok || seen.damages.length > 0) continue;
    hidden.push(...faultsOf(seen, [head]));
    if (seen.opened.value.size !== head.size) hidden.push(`${seen.opened.value.size} facts of ${head.size}`);
  }
  return { file, bit, answers, hidden };
}

/** Any bit of any data file of the database. */
async function flipOneBit(profile: string): Promise<{ file: string; bit: number }> {
  const folder = join(profile, DATABASES);
  const files = (await readdir(folder, { recursive: true })).filter((name) => /\.(log|ldb)$/.test(name));
  const file = files[Math.floor(Math.random() * files.length)];
  if (file === undefined) throw new Error(`There is no database in ${folder}`);
  const bytes = await readFile(join(folder, file));
  const bit = Math.floor(Math.random() * bytes.length * 8);
  bytes.writeUInt8(bytes.readUInt8(bit >> 3) ^ (1 << (bit & 7)), bit >> 3);
  await writeFile(join(folder, file), bytes);
  return { file, bit };
}
