import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { faultOfLine, runMerkleCheck } from '../../../src/tools/commands/merkle-check';
import { hearConsole } from './said';

// The published cases lie outside the project's tree: ../shared/merkle, or where STOWCALL_SHARED points.
const SHARED = process.env.STOWCALL_SHARED ?? join(import.meta.dirname, '../../../../shared');
const CASES = join(SHARED, 'merkle/proofs.jsonl');
const present = existsSync(CASES);
if (!present) console.warn(`Published proof cases are not at ${CASES}: these tests are skipped.`);

/** A sound row, made by hand from two leaves: SHA-256(00) and SHA-256(00 00). */
const SOUND = {
  kind: 'inclusion',
  case: 'by hand',
  leafIdx: 0,
  treeSize: 1,
  root: 'bjQLnP+zepicpUTmu3gKLHiQHT+zNzh2hRGjBhevoB0=',
  leafHash: 'bjQLnP+zepicpUTmu3gKLHiQHT+zNzh2hRGjBhevoB0=',
  proof: null,
  wantErr: false,
};

describe('one row', () => {
  it('passes when the check says what the row says', () => {
    expect(faultOfLine(JSON.stringify(SOUND))).toBeNull();
    expect(faultOfLine(JSON.stringify({ ...SOUND, leafIdx: 1, wantErr: true }))).toBeNull();
  });
  it('fails when a sound proof is refused or a tampered one accepted', () => {
    expect(faultOfLine(JSON.stringify({ ...SOUND, treeSize: 2 }))).toBe('by hand: refused, but it is sound');
    expect(faultOfLine(JSON.stringify({ ...SOUND, wantErr: true }))).toBe('by hand: accepted, but it must be refused');
  });
  it.each(['{', '[]', '{"kind":"other"}', JSON.stringify({ ...SOUND, root: '*' })])('%s is a fault', (line) => {
    expect(faultOfLine(line)).toMatch(/^not /);
  });
  it('a size of 2^64 - 1 is refused, not rounded into something valid', () => {
    const row = JSON.stringify({ ...SOUND, wantErr: true }).replace('"leafIdx":0', '"leafIdx":18446744073709551615');
    expect(faultOfLine(row)).toBeNull();
  });
});

describe.skipIf(!present)('the published cases (transparency-dev/merkle, Apache-2.0)', () => {
  it('all pass', async () => {
    const lines = (await readFile(CASES, 'utf8')).split('\n').filter((line) => line !== '');
    expect(lines.length).toBe(143);
    expect(lines.map(faultOfLine).filter((fault) => fault !== null)).toEqual([]);
  });
});

describe('the command', () => {
  let folder = '';
  let said: string[] = [];
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'merkle-check-'));
  });
  beforeEach(() => {
    said = hearConsole();
  });
  afterAll(async () => {
    vi.restoreAllMocks();
    await rm(folder, { recursive: true });
  });
  const run = async (text: string): Promise<number> => {
    const file = join(folder, 'rows.jsonl');
    await writeFile(file, text);
    return runMerkleCheck([file]);
  };

  it('prints the count and ends with 0', async () => {
    expect(await run(`${JSON.stringify(SOUND)}\n\n${JSON.stringify(SOUND)}\n`)).toBe(0);
    expect(said).toEqual(['2 passed, 0 failed']);
  });
  it('names each failing line and ends with 1', async () => {
    expect(await run(`${JSON.stringify(SOUND)}\n${JSON.stringify({ ...SOUND, treeSize: 2 })}\n`)).toBe(1);
    expect(said).toEqual([expect.stringContaining('rows.jsonl:2: by hand'), '1 passed, 1 failed']);
  });
  it('an empty file proves nothing', async () => {
    expect(await run('')).toBe(1);
  });
  it('a missing file and wrong use end with 2', async () => {
    expect(await runMerkleCheck([join(folder, 'absent')])).toBe(2);
    expect(await runMerkleCheck([])).toBe(2);
    expect(await runMerkleCheck(['a', 'b'])).toBe(2);
  });
});
