/** Moments: the day is that of the table, whatever the day is elsewhere. */
import { describe, expect, it } from 'vitest';
import { dateOf, epochMs } from '../../src/domain/instant';

describe('the day of a moment', () => {
  it.each([
    ['2026-11-25T00:30:00.000+01:00', '2026-11-25'],
    ['2026-11-25T23:30:00.000-05:00', '2026-11-25'],
    ['2026-11-25T23:59:59.999Z', '2026-11-25'],
  ])('of %s is %s at the table', (at, day) => {
    expect(dateOf(at)).toBe(day);
  });
});

describe('the milliseconds of a moment', () => {
  it('are the same whatever offset it is written with', () => {
    // ISO 8601: an hour ahead of UTC is an hour earlier in UTC.
    expect(epochMs('1970-01-01T01:00:00.250+01:00')).toBe(250);
    expect(epochMs('1970-01-01T00:00:00.250Z')).toBe(250);
  });

  it('of what is no moment are no number', () => {
    expect(epochMs('yesterday')).toBeNaN();
  });
});
