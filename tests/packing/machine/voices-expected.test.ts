/** Whose voices are expected: the packer's, an inspector's while a verdict is open, and nobody's when all is over. */
import { describe, expect, it } from 'vitest';
import { voicesExpected } from '../../../src/packing/machine/voices-expected';
import { reach, stopNow } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';

const ADA = { person: 'ada', as: 'packer' };
const INES = { person: 'ines', as: 'inspector' };

function at(place: string): PackDriver {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place);
  return driver;
}

const expected = (driver: PackDriver) => voicesExpected(driver.snapshot);

describe('voices expected', () => {
  it('of the packer, from the opening on', () => {
    expect(expected(new PackDriver({ loft: LOFT }))).toEqual([ADA]);
  });

  it('of the inspector too, from the scan to the verdict, also while it is read back', () => {
    const driver = at('hold:layout');
    expect(expected(driver)).toEqual([ADA]);
    driver.badge('B-ines');
    expect(expected(driver)).toEqual([ADA, INES]);
    driver.command({ name: 'releaseHold' });
    expect(driver.phase).toBe('readingBack');
    expect(expected(driver)).toEqual([ADA, INES]);
    driver.command({ name: 'affirm' });
    expect(expected(driver)).toEqual([ADA]);
  });

  it('of the inspector while a finding is chosen', () => {
    const driver = at('hold:layout');
    driver.badge('B-ines');
    driver.command({ name: 'returnHold' });
    expect(driver.phase).toBe('choosingFinding');
    expect(expected(driver)).toEqual([ADA, INES]);
  });

  it('not of an inspector whose time has run out', () => {
    const driver = at('hold:layout');
    driver.badge('B-ines');
    driver.after(LOFT.settings.verdictSeconds + 1);
    driver.tick();
    expect(expected(driver)).toEqual([ADA]);
  });

  it('not of the packer who scans a badge at the hold', () => {
    const driver = at('hold:layout');
    driver.badge('B-ada');
    expect(expected(driver)).toEqual([ADA]);
  });

  it('not of an inspector after a restart', () => {
    const driver = at('hold:layout');
    driver.badge('B-ines');
    driver.restart();
    expect(expected(driver)).toEqual([ADA]);
  });

  it.each(['recorded', 'stopped'])('of nobody when it is %s', (end) => {
    const driver = end === 'recorded' ? at('recorded') : at('hold:layout');
    if (end === 'stopped') {
      stopNow(driver);
    }
    expect(driver.phase).toBe(end);
    expect(expected(driver)).toEqual([]);
  });
});
