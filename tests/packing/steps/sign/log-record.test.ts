/** The log record of packs in which things went wrong and were put right. */
import { describe, expect, it } from 'vitest';
import type { LogRecord } from '../../../../src/domain/log-record';
import { handOver, reach, sendBack } from '../../autopilot';
import { LOFT } from '../../fixture';
import { PackDriver } from '../../pack-driver';

function recordOf(driver: PackDriver, inspector = 'ines'): LogRecord {
  reach(driver, 'recorded', { inspector });
  const { detail } = driver.view;
  if (detail.screen !== 'record') throw new Error(`no record at ${detail.screen}`);
  return detail.record;
}

describe('the log record', () => {
  it('of a plain pack holds what 14 CFR 65.131(a) and (c) ask for', () => {
    const record = recordOf(new PackDriver({ loft: LOFT }));
    expect(record).toMatchObject({
      typeAndMake: 'Sprat main, made for these tests',
      serials: [
        { kind: 'bag', model: 'SB', serial: 'P1-BAG' },
        { kind: 'container', model: 'SC', serial: 'P1-CONTAINER' },
        { kind: 'canopy', model: 'SK', serial: 'P1-CANOPY' },
      ],
      owner: { name: 'The test loft', address: '1 Test Lane' },
      packedOn: '2026-11-25',
      place: 'Test bench',
      packers: [{ name: 'Ada', certificate: 'C-ada' }],
      defects: [],
      dropTests: 'None made.',
      // 180 days after 25 November 2026: 5 + 31 + 31 + 28 + 31 + 30 = 156 to the end of April, and 24 of May.
      nextDue: '2027-05-24',
      repackRule: '180 days',
    });
    expect(record.work).toBe('Packed by Sprat main, revision C: 8 stages, 3 inspection holds released.');
    expect(record.holds.map(({ hold, inspector, certificate }) => [hold, inspector, certificate])).toEqual([
      ['layout', 'Ines', 'C-ines'],
      ['stowing', 'Ines', 'C-ines'],
      ['closing', 'Ines', 'C-ines'],
    ]);
    expect(record.values).toEqual([
      { stage: '2 Count the cells', what: 'cells', value: '7 cells' },
      { stage: '4 Measure the line', what: 'the line', value: '100 in' },
      { stage: '5 Stow the line', what: 'stows', value: '6 stows of 4 in' },
      { stage: '6 Measure the rest', what: 'the rest of the line', value: '19 in' },
    ]);
    expect(record.tools).toEqual([
      { name: 'Packing paddle', issued: 2, returned: 2 },
      { name: 'Pull-up cord', issued: 1, returned: 1 },
    ]);
    expect(record.temporaryItems).toEqual([{ name: 'nose tie', placed: 1, removed: 1 }]);
    expect(record.notice).toContain('assists and does not certify');
  });

  it('says that somebody was asked for defects of the material, and found none', () => {
    const record = recordOf(new PackDriver({ loft: LOFT }));
    expect(record.materialDefects).toEqual([]);
    expect(record).not.toHaveProperty('sealMark');
  });

  it.each([
    ['assembled and packed where a part was never packed', null, 'assembleAndPack'],
    ['inspected and repacked where all were packed before', '2026-10-01', 'inspectAndRepack'],
  ])('says %s, and the uses that the books have', (_, lastPackedOn, workKind) => {
    const assemblies = LOFT.assemblies.map((assembly) => ({
      ...assembly,
      components: assembly.components.map((one) => ({
        ...one,
        lastPackedOn,
        inServiceOn: lastPackedOn === null ? null : one.inServiceOn,
        lifeYearsFromService: null,
        ...(one.kind === 'bag' ? { uses: 12 } : {}),
      })),
    }));
    const record = recordOf(new PackDriver({ loft: { ...LOFT, assemblies } }));
    expect(record.workKind).toBe(workKind);
    expect(record.uses).toEqual([
      { serial: 'P1-BAG', uses: 12 },
      { serial: 'P1-CONTAINER', uses: null },
      { serial: 'P1-CANOPY', uses: null },
    ]);
  });

  it('is in the signed fact exactly as it is shown', () => {
    const driver = new PackDriver({ loft: LOFT });
    const record = recordOf(driver);
    const signed = driver.facts.find(({ body }) => body.kind === 'signed');
    expect(signed?.body).toMatchObject({ kind: 'signed', packer: 'ada', record });
  });

  it('tells of every value outside its band and of every return, with what became of them', () => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'stage:rest');
    driver.command({ name: 'measured', value: 15.5, unit: 'in' });
    driver.command({ name: 'affirm' });
    sendBack(driver, 1);
    reach(driver, 'stage:stows');
    const record = recordOf(driver);
    expect(record.defects).toEqual([
      'Hold Stowing: Stow too long, found by Ines. Done again from stage 5, Stow the line and inspected again.',
      'At stage 6, Measure the rest: 15 1/2 in measured, 19 in expected, 3 1/2 in too short. Put right: 19 in.',
    ]);
    expect(record.values.at(-1)).toEqual({ stage: '6 Measure the rest', what: 'the rest of the line', value: '19 in' });
  });

  it('counts a temporary item that went in twice as out twice', () => {
    const driver = new PackDriver({ loft: LOFT });
    sendBack(driver, 2);
    reach(driver, 'restore:out:noseTie');
    expect(recordOf(driver).temporaryItems).toEqual([{ name: 'nose tie', placed: 2, removed: 2 }]);
  });

  it('names everyone who packed, the one who signs last, also after a hand-over and back', () => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'stage:line');
    handOver(driver, 'ben');
    handOver(driver, 'ada');
    expect(driver.snapshot.context.state.packers).toEqual(['ada', 'ben']);
    handOver(driver, 'ben');
    expect(recordOf(driver).packers.map(({ name }) => name)).toEqual(['Ada', 'Ben']);
  });

  it('names the one who signs last, also when that one began the pack', () => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'stage:line');
    handOver(driver, 'ben');
    handOver(driver, 'ada');
    expect(recordOf(driver).packers.map(({ name }) => name)).toEqual(['Ben', 'Ada']);
  });

  it('names by the id who has left the loft, after a restart on changed files', () => {
    const before = new PackDriver({ loft: LOFT });
    reach(before, 'stage:line');
    handOver(before, 'ben');
    reach(before, 'sign');
    const loft = { ...LOFT, people: LOFT.people.filter(({ id }) => id !== 'ada') };
    const record = recordOf(new PackDriver({ loft, facts: before.facts, at: '2026-11-25T12:00:00.000Z' }));
    expect(record.packers[0]).toEqual({ name: 'ada', certificate: 'not on record' });
    expect(record.stagesBy?.[0]).toEqual({ name: 'ada', certificate: 'not on record', stages: '1 to 3' });
  });

  it('says who was packing when each stage was last completed', () => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'stage:line');
    handOver(driver, 'ben');
    reach(driver, 'stage:untie');
    handOver(driver, 'ada');
    expect(recordOf(driver).stagesBy).toEqual([
      { name: 'Ben', certificate: 'C-ben', stages: '4 to 6' },
      { name: 'Ada', certificate: 'C-ada', stages: '1 to 3, 7 to 8' },
    ]);
  });

  it('gives a stage that was done again to whoever did it again', () => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'hold:layout');
    handOver(driver, 'ben');
    sendBack(driver, 1);
    expect(recordOf(driver).stagesBy).toEqual([
      { name: 'Ada', certificate: 'C-ada', stages: '1' },
      { name: 'Ben', certificate: 'C-ben', stages: '2 to 8' },
    ]);
  });

  it('says where the clock jumped, and its zone, and nothing where it did not', () => {
    const before = new PackDriver({ loft: LOFT });
    expect(recordOf(before.fork())).not.toHaveProperty('clock');
    reach(before, 'stage:line');
    const jump = { kind: 'clockJumped', from: '2026-11-25T09:10:00.000Z', to: '2026-11-25T08:00:00.000Z' } as const;
    const zones = { from: '2026-11-25T08:00:00.000Z', to: '2026-11-25T09:00:01.500+01:00' } as const;
    const set = { zoneFrom: '+00:00', zoneTo: '+01:00' } as const;
    const bodies = [jump, { kind: 'clockJumped', ...zones, ...set }] as const;
    const more = [...bodies, { ...bodies[1], daylightSaving: true } as const].map((body, index) => ({
      pack: 'pack-1',
      at: before.now,
      by: null,
      body,
      seq: 1_000 + index,
    }));
    const driver = new PackDriver({ loft: LOFT, facts: [...before.facts, ...more], at: '2026-11-25T12:00:00.000Z' });
    const zone = 'The clock went from 2026-11-25 08:00:00 +00:00 to 2026-11-25 09:00:01 +01:00. Its zone went from';
    expect(recordOf(driver).clock).toEqual([
      'The clock went from 2026-11-25 09:10:00 +00:00 to 2026-11-25 08:00:00 +00:00.',
      `${zone} +00:00 to +01:00 because it was set.`,
      `${zone} +00:00 to +01:00 by daylight saving.`,
    ]);
  });

  it('names by its id what the procedure does not know', () => {
    const before = new PackDriver({ loft: LOFT });
    reach(before, 'stage:lay');
    const inches = (value: number) => ({ value, unit: 'in' as const });
    const size = { value: inches(15.5), expected: inches(19), deviation: -3.5, within: false };
    const back = { hold: 'gone', inspector: 'ines', sighting: 'x', finding: 'odd', backTo: 'nowhere' } as const;
    const bodies = [
      { kind: 'measured', stage: 'nowhere', ...size },
      { kind: 'holdReturned', channel: 'voice', ...back },
    ] as const;
    const more = bodies.map((body, index) => ({ pack: 'pack-1', at: before.now, by: null, body, seq: 1_000 + index }));
    const driver = new PackDriver({ loft: LOFT, facts: [...before.facts, ...more], at: '2026-11-25T12:00:00.000Z' });
    expect(recordOf(driver).defects).toEqual([
      'Hold gone: odd, found by Ines. Done again from nowhere and inspected again.',
      'At nowhere: 15 1/2 in measured, 19 in expected, 3 1/2 in too short.',
    ]);
  });

  it('is dated by the day at the table on which it was signed', () => {
    const driver = new PackDriver({ loft: LOFT, at: '2026-11-25T23:59:58.000Z' });
    expect(recordOf(driver)).toMatchObject({ packedOn: '2026-11-26', nextDue: '2027-05-25' });
  });
});
