/** What a record says of who did which stage and of the clock is worked out anew. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../../src/domain/fact';
import type { LogRecord } from '../../../../src/domain/log-record';
import { findingsOf, verdictOf } from '../remade-story';

const inRecords =
  (change: (record: LogRecord) => LogRecord) =>
  (fact: Fact): Fact =>
    fact.body.kind === 'signed' ? { ...fact, body: { ...fact.body, record: change(fact.body.record) } } : fact;

const without = (member: 'stagesBy' | 'clock') =>
  inRecords((record) => JSON.parse(JSON.stringify({ ...record, [member]: undefined })) as LogRecord);

const edition = (fact: Fact): Fact =>
  fact.body.kind === 'packOpened' ? { ...fact, body: { ...fact.body, edition: 1 } } : fact;

describe('a record', () => {
  it('that gives a stage to another packer is found', async () => {
    const swapped = inRecords((record) => {
      const [first, second] = record.stagesBy ?? [];
      if (first === undefined || second === undefined) return record;
      return {
        ...record,
        stagesBy: [
          { ...first, stages: second.stages },
          { ...second, stages: first.stages },
        ],
      };
    });
    expect(await findingsOf(swapped)).toContainEqual(expect.stringMatching(/stages by packer/));
  });

  it('that calls a packer by another name there is found', async () => {
    const renamed = inRecords((record) => ({
      ...record,
      stagesBy: record.stagesBy?.map((one) => ({ ...one, name: 'Nora Pell' })),
    }));
    expect(await findingsOf(renamed)).toContainEqual(expect.stringMatching(/calls .* “Nora Pell”/));
  });

  it('without the stages is found, and of the first edition is not', async () => {
    expect(await findingsOf(without('stagesBy'))).toContainEqual(expect.stringMatching(/stages by packer/));
    const early = await findingsOf((fact) => edition(without('stagesBy')(fact)));
    expect(early).not.toContainEqual(expect.stringMatching(/stages by packer/));
  });

  it('that does not say where the clock jumped is found, and of the first edition is not', async () => {
    expect(await findingsOf(without('clock'))).toContainEqual(expect.stringMatching(/jumps of the clock/));
    const early = await findingsOf((fact) => edition(without('clock')(fact)));
    expect(early).not.toContainEqual(expect.stringMatching(/jumps of the clock/));
  });

  it('that tells of a jump which did not happen is found', async () => {
    const made = inRecords((record) => ({ ...record, clock: [...(record.clock ?? []), 'The clock went.'] }));
    expect(await findingsOf(made)).toContainEqual(expect.stringMatching(/jumps of the clock/));
  });

  it('cannot tell of a jump that was noticed with the signature itself', async () => {
    const { findings } = await verdictOf((facts) => {
      const at = facts.findLastIndex(({ body }) => body.kind === 'recheckPassed');
      const fact = facts[at];
      if (fact === undefined) throw new Error('the story is signed');
      const body = { kind: 'clockJumped' as const, from: fact.at, to: fact.at };
      return facts.toSpliced(at, 0, { ...fact, seq: facts.length, body });
    });
    expect(findings.map(({ detail }) => detail)).not.toContainEqual(expect.stringMatching(/jumps of the clock/));
  });
});
