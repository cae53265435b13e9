/** Dates: only real ones pass, and the arithmetic of due dates is right at the edges. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, addMonths, addYears, compareDates, parsePlainDate, sayDate } from '../../src/domain/plain-date';

const anyDate = fc
  .integer({ min: -25_567, max: 100_000 })
  .map((days) => new Date(days * 86_400_000).toISOString().slice(0, 10));

describe('reading a date', () => {
  it.each([
    '2026-02-29',
    '2026-13-01',
    '2026-00-10',
    '2026-01-00',
    '2026-04-31',
    '26-04-01',
    '2026-4-1',
    '0026-04-01',
    '2026-04-01 ',
    '01.04.2026',
    '12026-04-01',
    'on 2026-04-01',
    '2100-02-29',
    '',
  ])('turns "%s" away', (text) => {
    const detail = `"${text}" is not a calendar date. Write year, month and day like 2026-11-25.`;
    expect(parsePlainDate(text)).toEqual({ ok: false, reason: 'bad-date', detail });
  });

  it.each(['2024-02-29', '2000-02-29', '1900-01-01', '2026-12-31', '9999-12-31'])('takes %s', (text) => {
    expect(parsePlainDate(text)).toEqual({ ok: true, value: text });
  });

  it('takes every day that the calendar has', () => {
    fc.assert(fc.property(anyDate, (date) => parsePlainDate(date).ok));
  });
});

describe('date arithmetic', () => {
  it.each([
    ['2026-01-31', 1, '2026-02-28'],
    ['2024-01-31', 1, '2024-02-29'],
    ['2026-08-31', 6, '2027-02-28'],
    ['2026-12-15', 1, '2027-01-15'],
    ['2026-01-15', -1, '2025-12-15'],
    ['2026-03-31', -13, '2025-02-28'],
  ])('%s and %i months is %s: the end of a short month holds it', (from, months, to) => {
    expect(addMonths(from, months)).toBe(to);
  });

  it('29 February has its anniversary on 28 February', () => {
    expect(addYears('2024-02-29', 1)).toBe('2025-02-28');
    expect(addYears('2024-02-29', 4)).toBe('2028-02-29');
  });

  it('goes back the way it came', () => {
    fc.assert(
      fc.property(anyDate, fc.integer({ min: 0, max: 20_000 }), (date, days) => {
        const later = addDays(date, days);
        expect(parsePlainDate(later).ok).toBe(true);
        expect(compareDates(later, date)).toBe(days);
        expect(addDays(later, -days)).toBe(date);
      }),
    );
  });

  it('orders dates as the calendar does', () => {
    expect(compareDates('2026-01-02', '2026-01-10')).toBeLessThan(0);
    expect(compareDates('2026-01-10', '2026-01-10')).toBe(0);
    expect(compareDates('2027-01-01', '2026-12-31')).toBeGreaterThan(0);
  });

  it('stops at a text that is no date instead of computing with it', () => {
    expect(() => addDays('2026-02-30', 1)).toThrow(/calendar date/);
    expect(() => addDays('2026-02-20', 0.5)).toThrow(/whole/);
  });

  it('stops where the result is no date that could be read again', () => {
    expect(addDays('1900-01-02', -1)).toBe('1900-01-01');
    expect(() => addDays('1900-01-01', -1)).toThrow(/not before 1900/);
    expect(addYears('9998-12-31', 1)).toBe('9999-12-31');
    expect(() => addYears('9999-12-31', 1)).toThrow(/four digits/);
    expect(() => addMonths('2026-01-31', 0.5)).toThrow(/months are whole/);
  });

  it('is said with the month as a word', () => {
    expect(sayDate('2026-11-25')).toBe('25 November 2026');
    expect(sayDate('2026-03-04')).toBe('4 March 2026');
  });
});
