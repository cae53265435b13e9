/**
 * W3C's own SRGS 1.0 conformance grammars (implementation report suite), read from `../shared/srgs-abnf` beside the
 * project or from STOWCALL_SHARED; skipped, and said so, where the folder is absent.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkRow, readRows } from '../../../../src/tools/commands/srgs-check';

const folder = join(process.env['STOWCALL_SHARED'] ?? '../shared', 'srgs-abnf');
const present = existsSync(folder);

/** Rows that may fail, as "file: words", each with the reason. None does. */
const MAY_FAIL: readonly string[] = [];

describe.skipIf(!present)(`SRGS 1.0 conformance (needs ${folder})`, () => {
  const rows = present ? readRows(join(folder, 'checks.jsonl')) : [];

  it('has the whole suite', () => {
    expect(rows.length).toBe(130);
  });

  it.each(rows.map((row) => [`${row.file}: ${row.in}`, row] as const))('%s', (name, row) => {
    const { passed, got } = checkRow(join(folder, 'grammars'), row);
    expect({ passed, got }).toEqual({ passed: !MAY_FAIL.includes(name), got });
  });
});
