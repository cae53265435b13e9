/** All files of a loft together: what can be used, and what was turned away and why. */
import type { Loft } from '../domain/loft';
import type { Procedure } from '../domain/procedure';
import { FILES_MAX } from './file-limits';
import { parseAssemblies } from './parse-assemblies';
import { parsePeople } from './parse-people';
import { parseProcedure, stemOf } from './parse-procedure';
import { parseSettings } from './parse-settings';
import type { Fault, Parsed, RefusedLine } from './refusal';
import type { CommandIn } from './spoken-rule';

export interface LoftFileText {
  readonly path: string;
  readonly text: string;
}

export interface LoadedFiles {
  /** Null when settings, people or assemblies cannot be used: nothing can be packed then. */
  readonly loft: Loft | null;
  readonly refused: readonly RefusedLine[];
}

export const FILE_KINDS = ['settings', 'people', 'assemblies', 'procedure', 'badges'] as const;
export type FileKind = (typeof FILE_KINDS)[number];

/** What a file is, by its path alone; null for one that has no place in a loft. */
export function kindOfFile(path: string): FileKind | null {
  if (/(^|\/)procedures\/[^/]+\.yaml$/.test(path)) return 'procedure';
  if (/(^|\/)loft\.yaml$/.test(path)) return 'settings';
  if (/(^|\/)people\.yaml$/.test(path)) return 'people';
  if (/(^|\/)badges\.yaml$/.test(path)) return 'badges';
  return /(^|\/)assemblies\.yaml$/.test(path) ? 'assemblies' : null;
}

function whole(file: string, fault: Fault, reason: string): RefusedLine {
  return { file, line: 1, fault, reason };
}

/** What the files are called of which a loft has one each. */
const USUAL = { settings: 'loft.yaml', people: 'people.yaml', assemblies: 'assemblies.yaml' } as const;
type OneOfAKind = keyof typeof USUAL;

/** The one file of this kind. Two are as bad as none: nobody could say which of them counts. */
function theOne(files: readonly LoftFileText[], kind: OneOfAKind): Parsed<LoftFileText> {
  const usual = USUAL[kind];
  const [first, second] = files.filter((file) => kindOfFile(file.path) === kind);
  if (first === undefined) {
    return {
      ok: false,
      refused: [whole(usual, 'missing-file', `The file ${usual} is missing. Nothing can be packed without it.`)],
    };
  }
  if (second === undefined) return { ok: true, value: first };
  const reason = `There is also ${first.path}. Nothing can be packed until one of them is taken away.`;
  return { ok: false, refused: [whole(second.path, 'duplicate-file', reason)] };
}

function parseOne<T>(
  files: readonly LoftFileText[],
  kind: OneOfAKind,
  parse: (file: LoftFileText) => Parsed<T>,
): Parsed<T> {
  const file = theOne(files, kind);
  return file.ok ? parse(file.value) : file;
}

interface LoadedProcedures {
  readonly procedures: readonly Procedure[];
  /** Ids that have a file, usable or not. */
  readonly named: ReadonlySet<string>;
  readonly refused: readonly RefusedLine[];
}

function loadProcedures(files: readonly LoftFileText[], commandIn?: CommandIn): LoadedProcedures {
  const own = files.filter((file) => kindOfFile(file.path) === 'procedure');
  const procedures: Procedure[] = [];
  const refused: RefusedLine[] = [];
  for (const { path, text } of own) {
    const namesake = own.find((other) => other.path !== path && stemOf(other.path) === stemOf(path));
    const parsed: Parsed<Procedure> =
      namesake === undefined && own.filter((other) => other.path === path).length === 1
        ? parseProcedure(path, text, commandIn)
        : {
            ok: false,
            refused: [whole(path, 'duplicate-file', 'Two files have this name, and neither is used. Take one away.')],
          };
    if (parsed.ok) procedures.push(parsed.value);
    else refused.push(...parsed.refused);
  }
  return { procedures, named: new Set(own.map((file) => stemOf(file.path))), refused };
}

/** A YAML file in the wrong place would otherwise be missed without a word. */
function strayFiles(files: readonly LoftFileText[]): readonly RefusedLine[] {
  return files
    .filter((file) => /\.ya?ml$/i.test(file.path) && kindOfFile(file.path) === null)
    .map((file) =>
      whole(file.path, 'unknown-file', 'A loft has no file of this name, so it is not used. Rename or move it.'),
    );
}

function tooManyFiles(files: readonly LoftFileText[]): readonly RefusedLine[] {
  const last = files.filter(({ path }) => kindOfFile(path) !== null)[FILES_MAX];
  if (last === undefined) return [];
  const reason = `There are more than ${String(FILES_MAX)} files in the loft. Take out what does not belong there.`;
  return [whole(last.path, 'too-many', reason)];
}

/**
 * Checks every file. A broken procedure is set aside and the others stay usable; broken settings, people or
 * assemblies mean that there is no loft. Files that are not YAML are not looked at. `commandIn` finds what can be said to
 * the kiosk in a text that is read aloud; without it nothing is looked for.
 */
export function loadLoft(files: readonly LoftFileText[], commandIn?: CommandIn): LoadedFiles {
  const settings = parseOne(files, 'settings', (file) => parseSettings(file.path, file.text));
  const people = parseOne(files, 'people', (file) => parsePeople(file.path, file.text));
  const { procedures, named, refused: brokenProcedures } = loadProcedures(files, commandIn);
  const known = settings.ok
    ? { procedures: named, repackRules: new Set(settings.value.repackRules.map((rule) => rule.id)) }
    : null;
  const assemblies = parseOne(files, 'assemblies', (file) => parseAssemblies(file.path, file.text, known));
  const tooMany = tooManyFiles(files);
  const refused = [
    ...tooMany,
    ...[settings, people, assemblies].flatMap((parsed) => (parsed.ok ? [] : parsed.refused)),
    ...brokenProcedures,
    ...strayFiles(files),
  ];
  if (tooMany.length > 0 || !settings.ok || !people.ok || !assemblies.ok) return { loft: null, refused };
  return {
    loft: { settings: settings.value, people: people.value, assemblies: assemblies.value, procedures },
    refused,
  };
}
