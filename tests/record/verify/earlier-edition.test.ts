/** A journal of edition 1, made by the program as it was on 2026-11-28 from an invented loft: it still verifies. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseExportText } from '../../../src/record/chain/export-file';
import { checkSignature } from '../../../src/record/seal/ed25519';
import { verifyPaper } from '../../../src/record/verify/verify-paper';
import { verifyRecord } from '../../../src/record/verify/verify-record';

const read = (name: string): string => readFileSync(join(import.meta.dirname, '../earlier', name), 'utf8');
const KEYS = [read('edition-1.key.txt').trim()];
const verify = (text: string) => verifyRecord(new TextEncoder().encode(text), { keys: KEYS, checkSignature });

describe('an export of the previous edition', () => {
  it.each(['edition-1.jsonl', 'edition-1-pack.jsonl'])('%s is sound, and can be read and restored', async (name) => {
    const verdict = await verify(read(name));
    expect(verdict.findings).toEqual([]);
    expect(verdict.signers).toMatchObject([{ key: KEYS[0], head: true }]);
    expect(parseExportText(read(name)).ok).toBe(true);
  });

  it('says nothing of editions, and holds what was scanned', () => {
    expect(read('edition-1.jsonl')).not.toContain('"edition"');
    expect(read('edition-1.jsonl')).toContain('"payload":"TBG-311-7"');
  });

  it('has a card that is genuine', async () => {
    const trust = { keys: KEYS, checkSignature, factBytes: () => Promise.resolve(null) };
    expect(await verifyPaper(read('edition-1.card.txt').trim(), trust)).toMatchObject({ genuine: true });
  });

  it('is still found out when a byte of it changes', async () => {
    expect((await verify(read('edition-1.jsonl').replace('"Table 3"', '"Table 4"'))).sound).toBe(false);
  });
});
