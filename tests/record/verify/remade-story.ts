/** The sound story of the demo with its facts changed and everything signed anew: what the verifier then finds. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Fact } from '../../../src/domain/fact';
import { parseExportText } from '../../../src/record/chain/export-file';
import { checkSignature } from '../../../src/record/seal/ed25519';
import { verifyRecord, type RecordVerdict } from '../../../src/record/verify/verify-record';
import { keyPairFrom } from '../../../src/tools/exports/demo-key';
import { remakeText } from '../../../src/tools/exports/remake';

/** The export as it lies in the project. */
export const STORY = readFileSync(join(import.meta.dirname, '../../../demo-data/exports/sound.jsonl'), 'utf8');

/** What the verifier makes of the story after this change to all of its facts. */
export async function verdictOf(change: (facts: readonly Fact[]) => readonly Fact[]): Promise<RecordVerdict> {
  const file = parseExportText(STORY);
  if (!file.ok) throw new Error(file.detail);
  const facts = change(file.value.facts.map(({ fact }) => fact));
  const text = await remakeText(facts, { name: 'x/y', pair: await keyPairFrom('remade story') });
  return verifyRecord(new TextEncoder().encode(text), { keys: [], checkSignature });
}

export async function findingsOf(change: (fact: Fact) => Fact): Promise<readonly string[]> {
  const { findings } = await verdictOf((facts) => facts.map(change));
  return findings.map(({ detail }) => detail);
}
