/** The tables under `en`: for each command what must be understood and what must not. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { ALL, phraseBook } from './book';

const FOLDER = 'tests/voice/phrases/en';
const tableSchema = z.strictObject({
  command: z.enum(COMMAND_NAMES),
  match: z.array(z.strictObject({ say: z.string(), is: z.record(z.string(), z.unknown()).default({}) })).min(1),
  refuse: z.array(z.string()).min(1),
});
const refusedSchema = z.strictObject({ refuse: z.array(z.string()).min(10) });

const book = phraseBook();
const read = (file: string): unknown => parse(readFileSync(`${FOLDER}/${file}`, 'utf8'));
const tables = readdirSync(FOLDER)
  .filter((file) => !file.startsWith('_'))
  .map((file) => tableSchema.parse(read(file)));

it('every command has its table', () => {
  expect(tables.map(({ command }) => command).sort()).toEqual([...COMMAND_NAMES].sort());
});

describe.each(tables)('$command', ({ command, match, refuse }) => {
  it.each(match)('understands "$say"', ({ say, is }) => {
    expect(book.understand(ALL, say)).toEqual({ kind: 'command', command: { name: command, ...is }, rule: command });
  });

  it.each(refuse)('is not heard in "%s"', (say) => {
    const understood = book.understand({ ...ALL, commands: [command] }, say);
    expect(understood).toEqual({ kind: 'none' });
  });
});

it.each(refusedSchema.parse(read('_refused.yaml')).refuse)('nothing is heard in "%s"', (say) => {
  expect(book.understand(ALL, say)).toEqual({ kind: 'none' });
});
