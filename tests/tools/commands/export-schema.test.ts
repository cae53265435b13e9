/** The JSON Schema of an export: what is committed is what the kiosk reads with, and it fits the sound export. */
import Ajv from 'ajv';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exportLineSchema } from '../../../src/tools/commands/export-schema';

const ROOT = join(import.meta.dirname, '../../..');
const COMMITTED = readFileSync(join(ROOT, 'public/stowcall-export.schema.json'), 'utf8');
const linesOf = (file: string): readonly string[] =>
  readFileSync(join(ROOT, 'demo-data/exports', file), 'utf8')
    .trimEnd()
    .split('\n');

describe('the schema of an export', () => {
  const fits = new Ajv({ strict: false, validateFormats: false }).compile(JSON.parse(COMMITTED) as object);

  it('is up to date', () => {
    expect(COMMITTED).toBe(`${JSON.stringify(exportLineSchema(), null, 2)}\n`);
  });

  it.each(['sound.jsonl', 'sound-one-pack.jsonl'])('fits every line of %s', (file) => {
    const lines = linesOf(file);
    expect(lines.length).toBeGreaterThan(100);
    for (const line of lines) expect(fits(JSON.parse(line)), line.slice(0, 200)).toBe(true);
  });

  it('fits no line with a part missing, a part too many, or a part of another type', () => {
    for (const line of linesOf('sound.jsonl').slice(0, 60)) {
      const whole = JSON.parse(line) as Record<string, unknown>;
      for (const name of Object.keys(whole)) {
        const less = Object.fromEntries(Object.entries(whole).filter(([other]) => other !== name));
        expect(fits(less), `${name} missing in ${line.slice(0, 100)}`).toBe(false);
        expect(fits({ ...whole, [name]: { odd: true } }), `${name} odd in ${line.slice(0, 100)}`).toBe(false);
      }
      expect(fits({ ...whole, more: 1 })).toBe(false);
    }
  });
});
