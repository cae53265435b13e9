/** What a record says of defects, of the work and of its own limits: each word is compared with the facts. */
import { describe, expect, it } from 'vitest';
import type { LogRecord } from '../../../../src/domain/log-record';
import { findingsOf, STORY } from '../remade-story';

/** What is found when each record is changed like this. */
function findingsWith(change: (record: LogRecord) => Partial<LogRecord>): Promise<readonly string[]> {
  return findingsOf((fact) =>
    fact.body.kind === 'signed'
      ? { ...fact, body: { ...fact.body, record: { ...fact.body.record, ...change(fact.body.record) } } }
      : fact,
  );
}

const reworded =
  (from: RegExp, to: string) =>
  ({ defects }: LogRecord): Partial<LogRecord> => ({ defects: defects.map((text) => text.replace(from, to)) });

const SAYS = 'Defect 1 on the record does not say what the facts amount to.';

describe('A defect on a record', () => {
  it('of either kind is in the story, and nothing is found', async () => {
    expect(STORY).toMatch(/"Hold [^"]* found by /);
    expect(STORY).toMatch(/"At stage [^"]* too short\. Put right: /);
    expect(await findingsWith(() => ({}))).toEqual([]);
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
    expect(await findingsWith(change)).toEqual([SAYS]);
  });

  it('found by somebody else is found, and who it was is told', async () => {
    const found = await findingsWith(reworded(/found by [^.]*/, 'found by Nora Pell'));
    expect(found).toEqual([expect.stringContaining('calls tomas-veller “Nora Pell”')]);
  });

  it('that is left out is found', async () => {
    const found = await findingsWith(() => ({ defects: [] }));
    expect(new Set(found)).toEqual(new Set(['The record’s number of defects is not what the facts amount to.']));
  });

  it('that was made up is found', async () => {
    const found = await findingsWith(({ defects }) => ({ defects: [...defects, 'A tear, sewn up.'] }));
    expect(new Set(found)).toEqual(new Set(['The record’s number of defects is not what the facts amount to.']));
  });
});

describe('A record by a procedure of the loft’s own', () => {
  /** The story with no procedure marked, and each record's notice as given. */
  const ownWith = (notice: string, edition: number): Promise<readonly string[]> =>
    findingsOf(({ body, ...fact }) => {
      if (body.kind === 'packOpened') return { ...fact, body: { ...body, edition } };
      if (body.kind === 'signed') return { ...fact, body: { ...body, record: { ...body.record, notice } } };
      if (body.kind !== 'procedureInForce' || body.procedure === null) return { ...fact, body };
      const procedure = { ...body.procedure, demonstration: false };
      return { ...fact, body: { ...body, procedure } };
    });
  const SAYS = 'The record’s demonstration notice is not what the facts amount to.';

  it('must not call itself a demonstration', async () => {
    expect(await ownWith('It must not be used to pack a parachute. It assists and does not certify.', 2)).toContain(
      SAYS,
    );
    expect(await ownWith('It assists and does not certify.', 2)).not.toContain(SAYS);
  });

  it('may in the first edition, in which all records carried the notice', async () => {
    expect(await ownWith('It must not be used to pack a parachute. It assists and does not certify.', 1)).not.toContain(
      SAYS,
    );
  });
});

describe('A record', () => {
  it.each([
    ['safety notice', { notice: 'Packed. This must not be used to pack a parachute.' }],
    ['demonstration notice', { notice: 'The kiosk assists and does not certify.' }],
    ['drop tests', { dropTests: 'Two made.' }],
    ['work done', { work: 'Packed.' }],
  ])('with another %s is found', async (field, change) => {
    const found = await findingsWith(() => change);
    expect(new Set(found)).toEqual(new Set([`The record’s ${field} is not what the facts amount to.`]));
  });
});
