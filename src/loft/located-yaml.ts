/** YAML text to plain data that still knows on which line each part stands. */
import { isMap, isScalar, isSeq, LineCounter, parseDocument, visit } from 'yaml';
import type { Document, ErrorCode, Node } from 'yaml';
import { longestFile, NO_CHARACTER } from './file-limits';
import type { Parsed, Problem, RefusedLine } from './refusal';

export interface LocatedFile {
  readonly file: string;
  readonly data: unknown;
  /** The line of the field or entry at `path`; where that is missing, of the nearest thing around it. */
  readonly lineOf: (path: readonly PropertyKey[]) => number;
}

/** In plain words where the parser's own would speak of its programming interface. */
const WORDS: Partial<Record<ErrorCode, string>> = {
  MULTIPLE_DOCS: 'the file holds more than one document',
  DUPLICATE_KEY: 'a field is written twice',
  TAB_AS_INDENT: 'tabs cannot indent; use spaces',
};

function notYaml(file: string, line: number, what: string): RefusedLine {
  return { file, line, fault: 'not-yaml', reason: `This is not a YAML file that can be used: ${what}.` };
}

/** Aliases, anchors and tags are left out on purpose: a reviewer must read each value where it counts. */
function findUnplain(doc: Document): { readonly offset: number; readonly what: string } | null {
  let found: { readonly offset: number; readonly what: string } | null = null;
  visit(doc, {
    Alias: (_, node) => {
      found = { offset: node.range?.[0] ?? 0, what: 'aliases are not used here; write the value out' };
      return visit.BREAK;
    },
    Node: (_, node) => {
      const { anchor, tag } = node as { readonly anchor?: string; readonly tag?: string };
      if (anchor === undefined && (tag === undefined || tag.startsWith('tag:yaml.org,2002:'))) return undefined;
      found = { offset: node.range?.[0] ?? 0, what: 'anchors and tags are not used here; write the value out' };
      return visit.BREAK;
    },
    Pair: (_, pair) => {
      if (isScalar(pair.key) && typeof pair.key.value === 'string') return undefined;
      found = { offset: (pair.key as Node | null)?.range?.[0] ?? 0, what: 'field names must be plain words' };
      return visit.BREAK;
    },
  });
  return found;
}

/** Offset of the deepest part of `path` that exists. */
function offsetOf(root: unknown, path: readonly PropertyKey[]): number {
  let node = root;
  let offset = (root as Node | null)?.range?.[0] ?? 0;
  for (const key of path) {
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && item.key.value === key);
      if (pair === undefined) break;
      offset = (pair.key as Node).range?.[0] ?? offset;
      node = pair.value;
    } else if (isSeq(node)) {
      const item = node.items[Number(key)];
      if (item === undefined) break;
      offset = (item as Node).range?.[0] ?? offset;
      node = item;
    } else break;
  }
  return offset;
}

/** Reads one YAML 1.2 document. Never throws; a text that is too large or no YAML is refused with its line. */
export function parseLocated(file: string, text: string): Parsed<LocatedFile> {
  const max = longestFile(file);
  if (text.length > max) {
    const reason = `The file has more than ${String(max)} characters. Split it or take out what does not belong.`;
    return { ok: false, refused: [{ file, line: 1, fault: 'too-large', reason }] };
  }
  const lost = text.indexOf(NO_CHARACTER);
  if (lost >= 0) {
    const line = text.slice(0, lost).split('\n').length;
    return { ok: false, refused: [notYaml(file, line, 'a character is not UTF-8; save the file as UTF-8')] };
  }
  try {
    const lines = new LineCounter();
    const lineAt = (offset: number): number => Math.max(1, lines.linePos(offset).line);
    const doc = parseDocument(text, { lineCounter: lines, prettyErrors: false });
    // Only the first: what follows it is mostly its echo.
    const [fault] = [...doc.errors, ...doc.warnings];
    if (fault !== undefined) {
      const what = WORDS[fault.code] ?? fault.message.replace(/\.$/, '');
      return { ok: false, refused: [notYaml(file, lineAt(fault.pos[0]), what)] };
    }
    const unplain = findUnplain(doc);
    if (unplain !== null) return { ok: false, refused: [notYaml(file, lineAt(unplain.offset), unplain.what)] };
    const lineOf = (path: readonly PropertyKey[]): number => lineAt(offsetOf(doc.contents, path));
    return { ok: true, value: { file, data: doc.toJS() as unknown, lineOf } };
  } catch (error) {
    // The parser recurses: a text of nothing but brackets runs it out of stack.
    return { ok: false, refused: [notYaml(file, 1, error instanceof Error ? error.message : 'it cannot be read')] };
  }
}

/** At most this many findings of one file: the rest would only bury the first. */
const FINDINGS_MAX = 50;

/** Gives problems their lines and sorts them by line. */
export function refuseFile<T>(located: LocatedFile, problems: readonly Problem[]): Parsed<T> {
  const refused = problems
    .map(({ path, fault, reason }) => ({ file: located.file, line: located.lineOf(path), fault, reason }))
    .sort((a, b) => a.line - b.line)
    .slice(0, FINDINGS_MAX);
  return { ok: false, refused };
}
