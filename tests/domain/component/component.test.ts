/** Check-in by dates: what is overdue, beyond life, unknown or contradictory never passes. */
import { describe, expect, it } from 'vitest';
import type { Assembly, Component } from '../../../src/domain/component/component';
import { checkComponent, componentOfSerial } from '../../../src/domain/component/component';
import type { RepackRule } from '../../../src/domain/component/repack-rule';

const rule: RepackRule = { id: 'r', title: '180 days', interval: { days: 180 }, boundary: 'inclusive' };

const bag = (rest: Partial<Component> = {}): Component => ({
  kind: 'bag',
  model: 'B',
  serial: 'QHB-2104-017',
  otherMarks: ['OLD-17'],
  madeOn: '2020-05-01',
  inServiceOn: '2020-06-01',
  lifeYearsFromMade: 15,
  lifeYearsFromService: 12,
  lastPackedOn: '2026-06-01',
  lastInspectedOn: null,
  outstanding: [],
  ...rest,
});

/** Was never put into service. */
const NEW = { lastPackedOn: null, inServiceOn: null, lifeYearsFromService: null };

const failed = (component: Component, on: string): readonly string[] =>
  checkComponent(component, rule, on)
    .filter((line) => !line.passed)
    .map((line) => line.label);

describe('checking one component', () => {
  it('passes a sound one, with the dates in words', () => {
    const lines = checkComponent(bag(), rule, '2026-11-25');
    expect(lines.every((line) => line.passed)).toBe(true);
    expect(lines.find((line) => line.label === 'Bag: repack date')?.detail).toBe(
      'Packed on 1 June 2026, last day of use 28 November 2026.',
    );
  });

  it.each<[string, Partial<Component>, string, readonly string[]]>([
    ['the last good day', {}, '2026-11-28', []],
    ['the day after, overdue, which bars use and not packing', {}, '2026-11-29', []],
    ['overdue, inspected tomorrow', { lastInspectedOn: '2026-12-06' }, '2026-12-05', ['Bag: record']],
    ['never packed, with years in service', { lastPackedOn: null }, '2026-11-25', ['Bag: repack date']],
    ['never packed, in service since today', { ...NEW, inServiceOn: '2026-11-25' }, '2026-11-25', []],
    [
      'never packed, in service since yesterday',
      { ...NEW, inServiceOn: '2026-11-24' },
      '2026-11-25',
      ['Bag: repack date'],
    ],
    ['never packed and not in service', NEW, '2026-11-25', []],
    ['packed tomorrow', { lastPackedOn: '2026-11-26' }, '2026-11-25', ['Bag: record', 'Bag: repack date']],
    ['packed before it was made', { lastPackedOn: '2020-04-30' }, '2020-07-01', ['Bag: record']],
    [
      'made tomorrow',
      { madeOn: '2026-11-26', inServiceOn: null, lifeYearsFromService: null, lastPackedOn: null },
      '2026-11-25',
      ['Bag: record', 'Bag: life from manufacture'],
    ],
    ['the last day of life from manufacture', { lifeYearsFromService: null }, '2035-04-30', []],
    [
      'the anniversary that ends life from manufacture',
      { lifeYearsFromService: null },
      '2035-05-01',
      ['Bag: life from manufacture'],
    ],
    ['the last day of life in service', {}, '2032-05-31', []],
    ['the anniversary that ends life in service', {}, '2032-06-01', ['Bag: life in service']],
    ['in service since nobody knows', { inServiceOn: null }, '2026-11-25', ['Bag: life in service']],
    ['no life set', { lifeYearsFromMade: null, lifeYearsFromService: null, inServiceOn: null }, '2026-11-25', []],
    ['in service before it was made', { inServiceOn: '2020-04-01' }, '2026-11-25', ['Bag: record']],
    ['work outstanding', { outstanding: ['Torn loop'] }, '2026-11-25', ['Bag: outstanding work']],
  ])('%s', (...[, rest, on, labels]) => {
    expect(failed(bag(rest), on)).toEqual(labels);
  });
});

describe('what the rigger is told of one component', () => {
  const told = (component: Component, on: string, label: string): string | undefined =>
    checkComponent(component, rule, on).find((line) => line.label === label)?.detail;

  it.each<[string, Partial<Component>, string, string, string]>([
    ['made', {}, '2026-11-25', 'Bag: record', 'Made on 1 May 2020.'],
    [
      'made tomorrow',
      { madeOn: '2026-11-26' },
      '2026-11-25',
      'Bag: record',
      'Made on 26 November 2026, which is still to come. Correct the record.',
    ],
    [
      'in service tomorrow',
      { inServiceOn: '2026-11-26' },
      '2026-11-25',
      'Bag: record',
      'Recorded as placed in service on 26 November 2026, which is still to come. Correct the record.',
    ],
    [
      'packed tomorrow',
      { lastPackedOn: '2026-11-26' },
      '2026-11-25',
      'Bag: record',
      'Recorded as last packed on 26 November 2026, which is still to come. Correct the record.',
    ],
    [
      'inspected before it was made',
      { lastInspectedOn: '2020-04-30' },
      '2026-11-25',
      'Bag: record',
      'Recorded as last inspected on 30 April 2020, before it was made on 1 May 2020. Correct the record.',
    ],
    [
      'packed tomorrow: no interval runs',
      { lastPackedOn: '2026-11-26' },
      '2026-11-25',
      'Bag: repack date',
      'Packed on 26 November 2026, which is still to come. Correct the record.',
    ],
    ['never packed', NEW, '2026-11-25', 'Bag: repack date', 'Never packed, so no interval is running.'],
    [
      'never packed, with years in service',
      { lastPackedOn: null },
      '2026-11-25',
      'Bag: repack date',
      'In service since 1 June 2020 and never packed, which cannot be. Correct the record.',
    ],
    [
      'overdue',
      {},
      '2026-11-29',
      'Bag: repack date',
      'Packed on 1 June 2026, overdue since 29 November 2026: not for use until packed and signed.',
    ],
    [
      'overdue, however lately it was inspected',
      { lastInspectedOn: '2026-12-04' },
      '2026-12-05',
      'Bag: repack date',
      'Packed on 1 June 2026, overdue since 29 November 2026: not for use until packed and signed.',
    ],
    [
      'no life set',
      { lifeYearsFromMade: null },
      '2026-11-25',
      'Bag: life from manufacture',
      'No service life is set. The rigger judges.',
    ],
    [
      'in service since nobody knows',
      { inServiceOn: null },
      '2026-11-25',
      'Bag: life in service',
      'The date from which 12 years of life run is unknown. Complete the record.',
    ],
    [
      'life that begins tomorrow',
      { inServiceOn: '2026-11-26' },
      '2026-11-25',
      'Bag: life in service',
      'Life would begin on 26 November 2026, which is still to come.',
    ],
    ['within its life', {}, '2026-11-25', 'Bag: life from manufacture', '15 years from 1 May 2020 end on 1 May 2035.'],
    [
      'beyond its life',
      {},
      '2035-05-01',
      'Bag: life from manufacture',
      '15 years from 1 May 2020 end on 1 May 2035. Take it out of service.',
    ],
    ['no work outstanding', {}, '2026-11-25', 'Bag: outstanding work', 'Nothing outstanding.'],
    [
      'work outstanding',
      { outstanding: ['Torn loop', 'Burn at the edge'] },
      '2026-11-25',
      'Bag: outstanding work',
      'Outstanding: Torn loop; Burn at the edge. Have it done and recorded first.',
    ],
  ])('%s', (_name, rest, ...[on, label, detail]) => {
    expect(told(bag(rest), on, label)).toBe(detail);
  });

  it.each([
    ['bag', 'Bag: record'],
    ['container', 'Container: record'],
    ['canopy', 'Canopy: record'],
  ] as const)('of a %s begins with its kind', (kind, label) => {
    expect(checkComponent(bag({ kind }), rule, '2026-11-25')[0]?.label).toBe(label);
  });
});

describe('a component to which everything happens on one day', () => {
  const day = '2026-11-25';
  const all = { madeOn: day, inServiceOn: day, lastPackedOn: day, lastInspectedOn: day };

  it('passes on that day: made, in service, packed and inspected today is neither to come nor before it was made', () => {
    expect(failed(bag(all), day)).toEqual([]);
  });

  it('says the last day of use, and from the day behind it on overdue, by the boundary of the rule', () => {
    // Packed 2008-11-26 + 180 days = 2009-05-25 (14 CFR 91.307, 105.43).
    const part = bag({ madeOn: '2008-01-01', inServiceOn: '2008-11-26', lastPackedOn: '2008-11-26' });
    const line = (boundary: RepackRule['boundary'], on: string): string | undefined =>
      checkComponent(part, { ...rule, boundary }, on).find(({ label }) => label === 'Bag: repack date')?.detail;
    expect(line('inclusive', '2009-05-25')).toContain('last day of use 25 May 2009');
    expect(line('inclusive', '2009-05-26')).toContain('overdue since 26 May 2009');
    expect(line('exclusive', '2009-05-24')).toContain('last day of use 24 May 2009');
    expect(line('exclusive', '2009-05-25')).toContain('overdue since 25 May 2009');
  });
});

describe('finding a component by its mark', () => {
  const assembly: Assembly = {
    id: 'a',
    name: 'A',
    model: 'M',
    typeAndMake: 'T',
    owner: { name: 'O', address: 'P' },
    components: [bag()],
    procedure: 'p',
    repackRule: 'r',
    openAt: null,
  };

  it('finds serial and other marks, exactly', () => {
    expect(componentOfSerial([assembly], 'QHB-2104-017')?.assembly.id).toBe('a');
    expect(componentOfSerial([assembly], 'OLD-17')?.component.kind).toBe('bag');
    expect(componentOfSerial([assembly], 'QHB-2104-01')).toBeNull();
    expect(componentOfSerial([assembly], 'qhb-2104-017')).toBeNull();
    expect(componentOfSerial([], 'QHB-2104-017')).toBeNull();
  });
});
