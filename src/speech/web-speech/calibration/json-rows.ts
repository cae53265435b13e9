/** Rows of a JSON Lines file, each checked. */
import { readFileSync } from 'node:fs';
import type { z } from 'zod';

/**
 * The rows of `file`; blank lines are passed over. Throws with the line where one is not of the schema, `needs` saying
 * what it should have: a row that is skipped proves nothing.
 */
export function readJsonRows<T>(file: string, schema: z.ZodType<T>, needs: string): readonly T[] {
  return readFileSync(file, 'utf8')
    .split('\n')
    .flatMap((line, at) => {
      if (line.trim() === '') return [];
      const row = schema.safeParse(JSON.parse(line));
      if (!row.success) throw new Error(`${file}:${at + 1}: a row needs ${needs}.`);
      return [row.data];
    });
}
