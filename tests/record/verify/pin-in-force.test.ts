/** A loft that wants PINs: the verifier knows from the journal alone whether each was given. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../src/domain/fact';
import type { PinPolicy } from '../../../src/domain/pin';
import { parseExportText } from '../../../src/record/chain/export-file';
import { checkSignature } from '../../../src/record/seal/ed25519';
import { verifyRecord } from '../../../src/record/verify/verify-record';
import { keyPairFrom } from '../../../src/tools/exports/demo-key';
import { remakeText } from '../../../src/tools/exports/remake';

const TEXT = readFileSync(join(import.meta.dirname, '../../../demo-data/exports/sound.jsonl'), 'utf8');

/** The sound story as it would be with this policy, where `given` says at which acts a PIN was given. */
async function findingsOf(pin: PinPolicy, given: (nth: number) => boolean): Promise<readonly string[]> {
  const file = parseExportText(TEXT);
  if (!file.ok) throw new Error(file.detail);
  let nth = 0;
  const facts = file.value.facts.map(({ fact }): Fact => {
    const { body } = fact;
    if (body.kind === 'procedureInForce') return { ...fact, body: { ...body, pin } };
    if (body.kind !== 'inspectorPresent') return fact;
    return given(nth++) ? { ...fact, body: { ...body, pin: true } } : fact;
  });
  const text = await remakeText(facts, { name: 'x/y', pair: await keyPairFrom('pin') });
  const verdict = await verifyRecord(new TextEncoder().encode(text), { keys: [], checkSignature });
  return verdict.findings.map(({ detail }) => detail);
}

describe('PINs', () => {
  it('given wherever they were wanted: nothing is found', async () => {
    expect(await findingsOf('eachHold', () => true)).toEqual([]);
    expect(await findingsOf('firstUse', () => true)).toEqual([]);
    expect(await findingsOf('never', () => false)).toEqual([]);
  });

  it('left out at one hold', async () => {
    expect(await findingsOf('eachHold', (nth) => nth !== 2)).toEqual([expect.stringMatching(/PIN of tomas-veller/)]);
    // He was known by then.
    expect(await findingsOf('firstUse', (nth) => nth !== 2)).toEqual([]);
  });

  it('left out at the first use of each pack', async () => {
    const found = await findingsOf('firstUse', () => false);
    expect(found.length).toBeGreaterThan(2);
    expect(found.every((detail) => detail.includes('PIN of'))).toBe(true);
  });
});
