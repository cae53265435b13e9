/** Runs rows of a conformance file against SRGS grammars: what must be accepted, with its logical parse, and what refused. */
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { Matcher, entryRules, linkGrammar, readGrammar } from '@stowcall/grammar';
import type { LinkedGrammar } from '@stowcall/grammar';
import { readerOf } from './grammar-files';
import { readJsonRows } from '@stowcall/web-speech/calibration/json-rows';

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

/** The rules that are active: the root, else all public ones; and the rule that the expected parse begins with. */
function activeRules(grammar: LinkedGrammar, out: string): readonly string[] {
  const asked = /^\$([^[<]+)\[/.exec(out)?.[1] ?? '';
  const isPublic = grammar.entry.rules.some(({ name, scope }) => scope === 'public' && name === asked);
  const active = entryRules(grammar.entry);
  return isPublic ? [...new Set([asked, ...active])] : active;
}

/** Runs one row against the grammars of a folder. */
export function checkRow(folder: string, row: CheckRow): CheckOutcome {
  const read = readerOf(folder);
  const text = read(row.file);
  if (text === null) return { passed: false, got: `no grammar ${row.file}` };
  const rejecting = row.out === 'REJECT';
  const parsed = readGrammar(text, row.file);
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

/** Rows of a JSONL file. */
export function readRows(file: string): readonly CheckRow[] {
  return readJsonRows(file, rowSchema, '"file", "in" and "out"');
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
