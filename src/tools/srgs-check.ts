/** Runs rows of a conformance file against SRGS grammars: what must be accepted, with its logical parse, and what refused. */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join, resolve, sep } from 'node:path';
import { parseArgs } from 'node:util';
import { z } from 'zod';
import type { Result } from '../domain/result';
import { ok, refused } from '../domain/result';
import { linkGrammar } from '../voice/grammar/link';
import type { LinkedGrammar } from '../voice/grammar/link';
import { Matcher } from '../voice/grammar/match';
import { parseAbnf } from '../voice/grammar/parse-abnf';

const rowSchema = z.object({
  file: z.string(),
  /** What is said. */
  in: z.string(),
  /** The logical parse, or REJECT where the words, or the grammar itself, must be refused. */
  out: z.string(),
});
export type CheckRow = z.infer<typeof rowSchema>;

export interface CheckOutcome {
  readonly passed: boolean;
  /** What happened: a parse, or why there is none. */
  readonly got: string;
}

/**
 * Bytes to text: a byte order mark decides, then the encoding in the header (SRGS 4.4). Where neither tells, UTF-8
 * is tried, which other encodings rarely satisfy by accident, and then ISO-8859-1.
 * Refusal `bad-encoding`: unknown encoding, or bytes that are not of it.
 */
export function decodeGrammar(bytes: Uint8Array): Result<string, 'bad-encoding'> {
  const named = /^#ABNF 1\.0 ([\w.:-]+);/.exec(Buffer.from(bytes.slice(0, 80)).toString('latin1'))?.[1];
  const mark = (bytes[0] ?? 0) * 256 + (bytes[1] ?? 0);
  const marked = mark === 0xfeff ? 'utf-16be' : mark === 0xfffe ? 'utf-16le' : mark === 0xefbb ? 'utf-8' : named;
  for (const encoding of marked === undefined ? ['utf-8', 'iso-8859-1'] : [marked]) {
    try {
      return ok(new TextDecoder(encoding, { fatal: true }).decode(bytes));
    } catch {
      continue;
    }
  }
  return refused('bad-encoding', `The bytes are not ${marked ?? 'text'}; correct the encoding in the first line.`);
}

/** Reads grammars from one folder and from nowhere else; null for whatever lies outside or is absent. */
function readerOf(folder: string): (address: string) => string | null {
  const root = resolve(folder);
  return (address) => {
    const path = resolve(join(root, address));
    if (/^[a-z][a-z0-9+.-]*:/i.test(address) || !path.startsWith(root + sep)) return null;
    if (!existsSync(path) || !statSync(path).isFile()) return null;
    const text = decodeGrammar(readFileSync(path));
    return text.ok ? text.value : null;
  };
}

/** The rules that are active: the root, else all public ones; and the rule that the expected parse begins with. */
function activeRules(grammar: LinkedGrammar, out: string): readonly string[] {
  const { header, rules } = grammar.entry;
  const publicRules = rules.filter((rule) => rule.scope === 'public').map((rule) => rule.name);
  const asked = /^\$([^[<]+)\[/.exec(out)?.[1] ?? '';
  const active = header.root === null ? publicRules : [header.root];
  return publicRules.includes(asked) ? [...new Set([asked, ...active])] : active;
}

/** Runs one row against the grammars of a folder. */
export function checkRow(folder: string, row: CheckRow): CheckOutcome {
  const read = readerOf(folder);
  const text = read(row.file);
  if (text === null) return { passed: false, got: `no grammar ${row.file}` };
  const rejecting = row.out === 'REJECT';
  const parsed = parseAbnf(row.file, text);
  if (!parsed.ok) return { passed: rejecting, got: parsed.detail };
  const linked = linkGrammar(parsed.value, read);
  if (!linked.ok) return { passed: rejecting, got: linked.detail };
  const words = row.in.split(/\s+/).filter((word) => word !== '');
  const matcher = new Matcher(linked.value, words, 'parse');
  const parses = activeRules(linked.value, row.out).flatMap(
    (rule) => matcher.match(rule)?.readings.map((reading) => reading.parse) ?? [],
  );
  if (parses.length === 0) return { passed: rejecting, got: 'the words do not match' };
  return { passed: parses.includes(row.out), got: parses.join(' or ') };
}

/** Rows of a JSONL file. Throws with the line where one cannot be read: a check that is skipped proves nothing. */
export function readRows(file: string): readonly CheckRow[] {
  return readFileSync(file, 'utf8')
    .split('\n')
    .flatMap((line, at) => {
      if (line.trim() === '') return [];
      const row = rowSchema.safeParse(JSON.parse(line));
      if (!row.success) throw new Error(`${file}:${at + 1}: a row needs "file", "in" and "out".`);
      return [row.data];
    });
}

/** `stowcall srgs-check --grammars DIR --checks FILE.jsonl`; the exit code is 0 only when every row passes. */
export async function runSrgsCheck(args: readonly string[]): Promise<number> {
  const { values } = parseArgs({
    args: [...args],
    options: { grammars: { type: 'string' }, checks: { type: 'string' } },
  });
  if (values.grammars === undefined || values.checks === undefined) {
    console.error('Usage: stowcall srgs-check --grammars DIR --checks FILE.jsonl');
    return 2;
  }
  const rows = readRows(values.checks);
  let failed = 0;
  for (const row of rows) {
    const { passed, got } = checkRow(values.grammars, row);
    if (passed) continue;
    failed += 1;
    console.log(`FAILED ${row.file} "${row.in}"\n  expected ${row.out}\n  got      ${got}`);
  }
  console.log(`${rows.length - failed} passed, ${failed} failed`);
  return failed === 0 ? 0 : 1;
}
