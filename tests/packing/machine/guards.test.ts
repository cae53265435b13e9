/** Guards that a change of one word would open unseen: whose model counts, what is stored together, what is legal at the ends. */
import { describe, expect, it } from 'vitest';
import type { FactBody } from '../../../src/domain/fact';
import { reach, sendBack, stopNow } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';

const kinds = (bodies: readonly { readonly body: FactBody }[]): readonly string[] =>
  bodies.map(({ body }) => body.kind);

function standingAt(place: string): PackDriver {
  const driver = new PackDriver({ loft: LOFT });
  if (place === 'restore:out:noseTie') {
    sendBack(driver, 2);
  }
  if (place === 'stopped') {
    reach(driver, 'stage:lay');
    stopNow(driver);
  }
  reach(driver, place, place === 'blocked' ? { assembly: 'REPAIR' } : {});
  return driver;
}

describe('whoever is let in', () => {
  it('is judged by the model of the agreed assembly, not of the first one of the loft', () => {
    const driver = new PackDriver({ loft: LOFT, packer: 'nora' });
    reach(driver, 'hold:layout', { assembly: 'PIKE' });
    driver.badge('B-ines');
    expect(driver.facts.at(-1)?.body).toMatchObject({ kind: 'scanRefused', reason: 'not-for-model' });
    driver.badge('B-ulla');
    expect(driver.phase).toBe('inspecting');
    driver.command({ name: 'standBy' });
    driver.badge('B-ben');
    expect(driver.facts.at(-1)?.body).toMatchObject({ kind: 'scanRefused', reason: 'not-for-model' });
    driver.command({ name: 'resume' });
    reach(driver, 'recorded', { assembly: 'PIKE', inspector: 'ulla' });
    expect(JSON.stringify(driver.facts.find(({ body }) => body.kind === 'signed'))).toContain('PIKE-CANOPY');
  });
});

describe('an assembly', () => {
  const scan = (driver: PackDriver, serial: string): void => {
    driver.component(serial);
    driver.command({ name: 'affirm' });
  };

  it('is agreed in one write with its last part, also after one was taken back', () => {
    const driver = new PackDriver({ loft: LOFT });
    scan(driver, 'P1-BAG');
    scan(driver, 'P1-CONTAINER');
    driver.command({ name: 'correction' });
    driver.command({ name: 'affirm' });
    scan(driver, 'P1-CONTAINER');
    scan(driver, 'P1-CANOPY');
    const sent = driver.appends.at(-1) ?? [];
    expect(kinds(sent)).toEqual(['componentIdentified', 'assemblyAgreed', 'checkInPassed']);
  });

  describe('whose journal ends between agreement and check-in, with a restart that cannot be stored', () => {
    const sound = new PackDriver({ loft: LOFT });
    reach(sound, 'toolOut:paddle');
    const facts = sound.facts.filter(({ body }) => body.kind !== 'checkInPassed');
    const cut = (): PackDriver => new PackDriver({ loft: LOFT, facts, storage: { fails: 'Full.' } });

    it('asks for no component and lets none be taken back', () => {
      expect(cut().view.scan).toBeNull();
      expect(cut().view.legal.map(({ name }) => name)).not.toContain('correction');
    });

    it('goes on to the tools once storage works again', () => {
      const driver = cut();
      driver.storage = 'works';
      driver.command({ name: 'sayAgain' });
      expect(driver.phase).toBe('countingToolsOut');
    });

    it('is not checked in behind a stop', () => {
      const driver = cut();
      driver.storage = 'works';
      stopNow(driver);
      expect(kinds(driver.facts.slice(facts.length))).toEqual(['restarted', 'stopped']);
    });
  });
});

describe('the machine', () => {
  it.each(['restore:out:noseTie', 'sign', 'blocked'])(
    'asks before a stop at %s, and "negative" leads back',
    (place) => {
      const driver = standingAt(place);
      const { phase } = driver;
      driver.command({ name: 'stopAndTag' });
      expect(driver.phase).toBe('choosingCause');
      driver.command({ name: 'negative' });
      expect(driver.phase).toBe(phase);
    },
  );

  it.each(['blocked', 'recorded', 'stopped'])('takes no "stand by" at %s, and says so', (place) => {
    const driver = standingAt(place);
    const { length } = driver.facts;
    driver.command({ name: 'standBy' });
    expect(driver.view.notice?.text).toBe('Not now: stand by.');
    expect(driver.facts).toHaveLength(length);
  });

  it('stores by "say again" the restart of a blocked pack that could not be stored', () => {
    const { facts } = standingAt('blocked');
    const driver = new PackDriver({ loft: LOFT, facts, storage: { fails: 'Full.' } });
    driver.storage = 'works';
    driver.command({ name: 'sayAgain' });
    expect(driver.facts.at(-1)?.body.kind).toBe('restarted');
  });
});
