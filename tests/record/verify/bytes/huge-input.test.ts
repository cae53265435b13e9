/** Whatever a file holds, the verifier answers: it never throws, however long, deep or many things are. */
import * as fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkSignature } from '../../../../src/record/seal/ed25519';
import { readKey } from '../../../../src/record/verify/bytes/read-note';
import { verifyPaper } from '../../../../src/record/verify/verify-paper';
import { verifyRecord, type RecordVerdict } from '../../../../src/record/verify/verify-record';

const SOUND = readFileSync(join(import.meta.dirname, '../../earlier/edition-1.jsonl'), 'utf8');
const LINES = SOUND.split('\n').slice(0, -1);
const verify = (text: string): Promise<RecordVerdict> =>
  verifyRecord(new TextEncoder().encode(text), { keys: [], checkSignature });
const header = (facts: number, keys: readonly string[] = []): string =>
  JSON.stringify({
    ...{ checkpoints: 0, facts, format: 'stowcall-export', head: { root: '0'.repeat(64), size: facts } },
    ...{ keys, pack: null, v: 2 },
  });

describe('the verifier answers', () => {
  it('to a key whose name has 300 kB', async () => {
    const key = `${'n'.repeat(300_000)}+00000000+${btoa('\u0001'.repeat(33))}`;
    expect(readKey(key)).toBeNull();
    expect((await verify(`${header(0, [key])}\n{"sha256":"${'0'.repeat(64)}"}\n`)).sound).toBe(false);
  });

  it('to 150,000 lines that are nothing', async () => {
    const { sound, findings } = await verify(`${header(150_000)}\n${'x\n'.repeat(300_001)}`);
    expect(sound).toBe(false);
    expect(findings.length).toBeGreaterThan(150_000);
  }, 60_000);

  it.each([
    ['brackets without end', '['.repeat(1_000_000)],
    ['a value nested a hundred thousand levels deep', `${'['.repeat(100_000)}${']'.repeat(100_000)}`],
    ['a fact nested deep', `{"seq":0,"pack":"p","body":${'{"a":'.repeat(5_000)}1${'}'.repeat(5_000)}}`],
    ['a text of ten million letters', `{"seq":0,"pack":"${'p'.repeat(10_000_000)}"}`],
    [
      'a hundred thousand members',
      `{"seq":0,"pack":"p",${Array.from({ length: 100_000 }, (_, n) => `"${n}":1`).join(',')}}`,
    ],
    ['a number beyond all', '{"seq":1e999,"pack":"p"}'],
    [
      'a member called __proto__',
      '{"seq":0,"pack":"p","__proto__":{"body":{"kind":"signed"}},"body":{"kind":"constructor"}}',
    ],
  ])(
    'to %s',
    async (_what, line) => {
      expect((await verify(`${header(1)}\n${line}\n{}\n{}\n`)).sound).toBe(false);
      expect((await verify(LINES.with(3, line).join('\n') + '\n')).sound).toBe(false);
    },
    60_000,
  );

  it('to any facts of any form, and finds each of them', async () => {
    const value = fc.jsonValue({ maxDepth: 3 });
    const body = fc.oneof(
      value,
      fc.record({ kind: fc.constantFrom('signed', 'packOpened', 'peopleInForce', 'procedureInForce', 'stopped') }),
      fc.dictionary(fc.constantFrom('kind', 'record', 'people', 'hold', 'stage', 'checks'), value),
    );
    const fact = fc.record({ v: fc.constant(1), seq: fc.constant(2), pack: value, at: value, by: value, body });
    await fc.assert(
      fc.asyncProperty(fact, async (made) => {
        const { sound } = await verify(`${LINES.with(3, JSON.stringify(made)).join('\n')}\n`);
        expect(sound).toBe(false);
      }),
      { numRuns: 150 },
    );
  }, 60_000);

  it('to any text for a card', async () => {
    const trust = { keys: [], checkSignature, factBytes: () => Promise.resolve(null) };
    await fc.assert(
      fc.asyncProperty(
        fc.oneof(
          fc.string(),
          fc.string().map((text) => `SCP1${text}`),
        ),
        async (text) => {
          expect((await verifyPaper(text, trust)).genuine).toBe(false);
        },
      ),
    );
    expect((await verifyPaper(`SCP1${'A'.repeat(1_000_000)}`, trust)).genuine).toBe(false);
  }, 60_000);
});
