/** Checks files of a loft before the kiosk sees them: a procedure, a single file, or a whole folder. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { badgeDigest } from '../../kiosk/sighting-of';
import type { LoftFileText } from '../../loft/load-loft';
import { kindOfFile, loadLoft } from '../../loft/load-loft';
import { parseAssemblies } from '../../loft/parse-assemblies';
import { parseBadges } from '../../loft/parse-badges';
import { parsePeople } from '../../loft/parse-people';
import { lintProcedure } from '../../loft/parse-procedure';
import { parseSettings } from '../../loft/parse-settings';
import type { Parsed, RefusedLine } from '../../loft/refusal';
import { anyCommandIn } from '../../voice/phrases/command-in-prompt';
import { readPhraseBook } from './read-phrases';

function findingsOf(parsed: Parsed<unknown>): readonly RefusedLine[] {
  return parsed.ok ? [] : parsed.refused;
}

const ROOT = join(import.meta.dirname, '../../..');
let known: ReturnType<typeof anyCommandIn> | null = null;

/** What can be said to this kiosk, read once. */
function commandIn(): ReturnType<typeof anyCommandIn> {
  known ??= anyCommandIn(readPhraseBook(ROOT));
  return known;
}

/** The kiosk passes over it, so it must not look sound here. */
function wrongEnding(file: string): RefusedLine {
  return { file, line: 1, fault: 'unknown-file', reason: 'A loft has no files that end in ".yml". Name it ".yaml".' };
}

/** A file alone; what is no settings, people or assemblies file by its name is taken for a procedure. */
function lintFile({ path, text }: LoftFileText): readonly RefusedLine[] {
  switch (kindOfFile(path)) {
    case 'settings':
      return findingsOf(parseSettings(path, text));
    case 'people':
      return findingsOf(parsePeople(path, text));
    case 'assemblies':
      return findingsOf(parseAssemblies(path, text, null));
    case 'badges':
      return findingsOf(parseBadges(path, text, null));
    default:
      return /\.yml$/i.test(path) ? [wrongEnding(path)] : lintProcedure(path, text, commandIn());
  }
}

function yamlFilesIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.ya?ml$/i.test(name))
    .map((name) => join(folder, name))
    .filter((path) => statSync(path).isFile())
    .sort();
}

const read = (path: string): LoftFileText => ({ path, text: readFileSync(path, 'utf8') });

interface PartInspection {
  readonly files: number;
  readonly findings: readonly RefusedLine[];
}

/** A folder that holds `loft.yaml` is checked as a loft, references and all; any other one file by file. */
function lintPath(path: string): PartInspection {
  if (!statSync(path).isDirectory()) return { files: 1, findings: lintFile(read(path)) };
  const files = yamlFilesIn(path).map(read);
  const isLoft = files.some((file) => file.path === join(path, 'loft.yaml'));
  return { files: files.length, findings: isLoft ? lintLoft(files) : files.flatMap(lintFile) };
}

/** All files together; the badges are compared with the people, which the page itself can never do. */
function lintLoft(files: readonly LoftFileText[]): readonly RefusedLine[] {
  const { loft, refused } = loadLoft(files, commandIn());
  const known = loft === null ? null : { people: loft.people, digestOf: badgeDigest };
  const badges = files.filter(({ path }) => kindOfFile(path) === 'badges');
  return [...refused, ...badges.flatMap(({ path, text }) => findingsOf(parseBadges(path, text, known)))];
}

const USAGE = 'Usage: lint <file or folder>...  checks procedures and loft files.';

/**
 * Prints `file:line: reason` for each finding, then the counts. Resolves to the exit code: 0 when all is clean,
 * 1 when there are findings or nothing to check, 2 when a path cannot be read or none is given.
 */
export function runLint(args: readonly string[]): Promise<number> {
  if (args.length === 0) {
    console.error(USAGE);
    return Promise.resolve(2);
  }
  let files = 0;
  let findings = 0;
  for (const path of args) {
    try {
      const looked = lintPath(path);
      looked.findings.forEach(({ file, line, reason }) => console.log(`${file}:${String(line)}: ${reason}`));
      files += looked.files;
      findings += looked.findings.length;
    } catch (error) {
      console.error(`${path}: cannot be read (${error instanceof Error ? error.message : String(error)}).`);
      return Promise.resolve(2);
    }
  }
  console.log(`Files checked: ${String(files)}. Findings: ${String(findings)}.`);
  return Promise.resolve(findings === 0 && files > 0 ? 0 : 1);
}
