/** What a record says of defects, of the work and of its own limits: each word is compared with the facts. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { LogRecord } from '../../../src/domain/log-record';
import { parseExportText } from '../../../src/record/chain/export-file';
import { checkSignature } from '../../../src/record/seal/ed25519';
import { verifyRecord } from '../../../src/record/verify/verify-record';
import { keyPairFrom } from '../../../src/tools/exports/demo-key';
import { remakeText } from '../../../src/tools/exports/remake';

const TEXT = readFileSync(join(import.meta.dirname, '../../../demo-data/exports/sound.jsonl'), 'utf8');

/** What is found in the sound story when each record is changed like this and everything is signed anew. */
async function findingsOf(change: (record: LogRecord) => Partial<LogRecord>): Promise<readonly string[]> {
  const file = parseExportText(TEXT);
  if (!file.ok) throw new Error(file.detail);
  const facts = file.value.facts.map(({ fact }) =>
    fact.body.kind === 'signed'
      ? { ...fact, body: { ...fact.body, record: { ...fact.body.record, ...change(fact.body.record) } } }
      : fact,
  );
  const text = await remakeText(facts, { name: 'x/y', pair: await keyPairFrom('defects') });
  const verdict = await verifyRecord(new TextEncoder().encode(text), { keys: [], checkSignature });
  return verdict.findings.map(({ detail }) => detail);
}

const reworded =
  (from: RegExp, to: string) =>
  ({ defects }: LogRecord): Partial<LogRecord> => ({ defects: defects.map((text) => text.replace(from, to)) });

const SAYS = 'Defect 1 on the record does not say what the facts amount to.';

describe('A defect on a record', () => {
  it('of either kind is in the story, and nothing is found', async () => {
    expect(TEXT).toMatch(/"Hold [^"]* found by /);
    expect(TEXT).toMatch(/"At stage [^"]* too short\. Put right: /);
    expect(await findingsOf(() => ({}))).toEqual([]);
  });

  it.each([
    ['another hold', reworded(/^Hold [^:]*/, 'Hold Bag closed')],
    ['another finding', reworded(/: [^:]*, found by/, ': Nothing much, found by')],
    ['another stage that it went back to', reworded(/again from stage \d+/, 'again from stage 1')],
    ['no inspection afterwards', reworded(/ and inspected again\./, '.')],
    ['nobody who found it', reworded(/found by [^.]*\./, 'found by .')],
    ['another stage', reworded(/^At stage \d+/, 'At stage 1')],
    ['another length', reworded(/: [^:]* measured/, ': 7 15/16 in measured')],
    ['another length that it should have had', reworded(/[^,]* expected/, ' 1 in expected')],
    ['another deviation', reworded(/[^,]* too short/, ' 1/16 in too short')],
    ['the other direction', reworded(/too short/, 'too long')],
    ['another length in the end', reworded(/Put right: .*\.$/, 'Put right: 9 in.')],
    ['nothing of what became of it', reworded(/ Put right: .*$/, '')],
  ])('with %s is found', async (_, change) => {
    expect(await findingsOf(change)).toEqual([SAYS]);
  });

  it('found by somebody else is found, and who it was is told', async () => {
    const found = await findingsOf(reworded(/found by [^.]*/, 'found by Nora Pell'));
    expect(found).toEqual([expect.stringContaining('calls tomas-veller “Nora Pell”')]);
  });

  it('that is left out is found', async () => {
    const found = await findingsOf(() => ({ defects: [] }));
    expect(new Set(found)).toEqual(new Set(['The record’s number of defects is not what the facts amount to.']));
  });

  it('that was made up is found', async () => {
    const found = await findingsOf(({ defects }) => ({ defects: [...defects, 'A tear, sewn up.'] }));
    expect(new Set(found)).toEqual(new Set(['The record’s number of defects is not what the facts amount to.']));
  });
});

describe('A record', () => {
  it.each([
    ['safety notice', { notice: 'Packed and certified.' }],
    ['drop tests', { dropTests: 'Two made.' }],
    ['work done', { work: 'Packed.' }],
  ])('with another %s is found', async (field, change) => {
    const found = await findingsOf(() => change);
    expect(new Set(found)).toEqual(new Set([`The record’s ${field} is not what the facts amount to.`]));
  });
});
