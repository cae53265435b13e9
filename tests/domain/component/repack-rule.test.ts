/** Repack dates against published day counts; where the trade disagrees, both readings on both sides of the day. */
import { describe, expect, it } from 'vitest';
import { addDays, addMonths } from '../../../src/domain/plain-date';
import type { Boundary, RepackRule } from '../../../src/domain/component/repack-rule';
import { dueDate, firstOverdueDay, isInDate, lastGoodDay } from '../../../src/domain/component/repack-rule';

const rule = (interval: RepackRule['interval'], boundary: Boundary): RepackRule => ({
  id: 'rule',
  title: 'Rule',
  interval,
  boundary,
});

describe('180 days (14 CFR 91.307(a): synthetic fibre)', () => {
  // Worked in a riggers' discussion: packed 26 November 2008, the 180th day is 25 May 2009
  // (dropzone.com/forums/topic/18209). Those riggers disagree whether that day is still good.
  const packed = '2008-11-26';

  it('is due on 25 May 2009', () => {
    expect(dueDate(rule({ days: 180 }, 'inclusive'), packed)).toBe('2009-05-25');
    expect(dueDate(rule({ days: 180 }, 'exclusive'), packed)).toBe('2009-05-25');
  });

  it.each<[Boundary, string, boolean]>([
    ['inclusive', '2008-11-25', false],
    ['inclusive', '2008-11-26', true],
    ['inclusive', '2009-05-24', true],
    ['inclusive', '2009-05-25', true],
    ['inclusive', '2009-05-26', false],
    ['exclusive', '2008-11-26', true],
    ['exclusive', '2009-05-24', true],
    ['exclusive', '2009-05-25', false],
    ['exclusive', '2009-05-26', false],
  ])('%s: on %s in date is %s', (boundary, on, good) => {
    expect(isInDate(rule({ days: 180 }, boundary), packed, on)).toBe(good);
  });

  it('is overdue from the day behind the last good one on, for either boundary', () => {
    expect(firstOverdueDay(rule({ days: 180 }, 'inclusive'), packed)).toBe('2009-05-26');
    expect(firstOverdueDay(rule({ days: 180 }, 'exclusive'), packed)).toBe('2009-05-25');
  });

  it('names the last good day', () => {
    expect(lastGoodDay(rule({ days: 180 }, 'inclusive'), packed)).toBe('2009-05-25');
    expect(lastGoodDay(rule({ days: 180 }, 'exclusive'), packed)).toBe('2009-05-24');
  });
});

describe('other published intervals', () => {
  it.each([
    // 14 CFR 91.307(a): any part of natural fibre, 60 days.
    [60, '2026-01-01', '2026-03-02'],
    // US Army TM 10-1670-201-23 Table 2-1 (Change 5): troop back, 120 days.
    [120, '2026-01-01', '2026-05-01'],
    // Same table: troop chest reserve and cargo, 365 days; across 29 February that is a day short of the year.
    [365, '2026-01-01', '2027-01-01'],
    [365, '2028-01-01', '2028-12-31'],
  ])('%i days from %s is %s', (days, packed, due) => {
    expect(dueDate(rule({ days }, 'inclusive'), packed)).toBe(due);
  });

  it('six months (South Africa, CAR 105.02.2) are not 180 days', () => {
    const months = dueDate(rule({ months: 6 }, 'inclusive'), '2008-11-26');
    expect(months).toBe('2009-05-26');
    expect(months).toBe(addMonths('2008-11-26', 6));
    expect(months).not.toBe(addDays('2008-11-26', 180));
    // From 1 March the gap is four days.
    expect(dueDate(rule({ months: 6 }, 'inclusive'), '2026-03-01')).toBe('2026-09-01');
    expect(dueDate(rule({ days: 180 }, 'inclusive'), '2026-03-01')).toBe('2026-08-28');
  });

  it('six months from 31 August end with the short month', () => {
    expect(isInDate(rule({ months: 6 }, 'inclusive'), '2026-08-31', '2027-02-28')).toBe(true);
    expect(isInDate(rule({ months: 6 }, 'exclusive'), '2026-08-31', '2027-02-28')).toBe(false);
    expect(isInDate(rule({ months: 6 }, 'inclusive'), '2026-08-31', '2027-03-01')).toBe(false);
  });
});
