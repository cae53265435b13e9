/** What the pack machine records must be what the record can hold; a fact that does not fit would stop the pack. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../src/domain/fact';
import { sealFact } from '../../../src/record/chain/fact-bytes';
import { step } from '../../packing/autopilot';
import { LOFT } from '../../packing/fixture';
import { PackDriver } from '../../packing/pack-driver';

/** A whole pack with a nuisance before every fifth step, to its end. */
function wholePack(nuisance: (driver: PackDriver) => void): readonly Fact[] {
  const driver = new PackDriver({ loft: LOFT });
  for (let steps = 0; steps < 250; steps += 1) {
    if (steps % 5 === 0) nuisance(driver);
    if (!step(driver)) return driver.facts;
  }
  throw new Error(`the pack does not end: stands in ${driver.phase}`);
}

/** The longest thing that a reader can deliver: 7,089 characters of a QR code (ISO/IEC 18004). */
const LONGEST = '7'.repeat(7_089);

describe('every fact of a whole pack is stored as the machine made it', () => {
  it.each<[string, (driver: PackDriver) => void]>([
    ['with nothing going wrong', () => undefined],
    ['with a restart again and again', (driver) => driver.restart()],
    ['with a stranger’s badge again and again', (driver) => driver.badge('B-nobody')],
    ['with the packer’s own badge again and again', (driver) => driver.badge('B-pia')],
    ['with an unknown component again and again', (driver) => driver.component('X-1')],
    [
      'with the longest payload that there is again and again',
      (driver) => driver.scan({ kind: 'refused', reason: 'unknown', detail: 'Not one of our labels.' }, LONGEST),
    ],
    ['with an empty payload again and again', (driver) => driver.scan({ kind: 'component', serial: '' }, '')],
  ])('%s', (_, nuisance) => {
    const facts = wholePack(nuisance);
    expect(facts.length).toBeGreaterThan(20);
    for (const fact of facts) {
      const sealed = sealFact(fact, fact.seq);
      if (!sealed.ok) throw new Error(`${fact.body.kind}: ${sealed.detail}`);
      expect(sealed.value.fact).toEqual(fact);
    }
  });
});
