/** The PIN pad at the kiosk: it comes when it must, nothing passes it, and the PIN itself goes nowhere. */
import { describe, expect, it } from 'vitest';
import type { Loft } from '../../../src/domain/loft';
import { makeStoredPin, PIN_ITERATIONS } from '../../../src/domain/pin';
import type { PinView } from '../../../src/screens/contract/pin-view';
import { demoLoft } from '../../e2e/support/demo-loft';
import { startRig, toFirstStage, toHold, type KioskRig } from '../rig';

const STORED = makeStoredPin({
  iterations: PIN_ITERATIONS,
  salt: 'AAAAAAAAAAAAAAAAAAAAAA==',
  hash: `${'A'.repeat(43)}=`,
});
const PIN = '482913';

function loftWithPins(): Loft {
  const loft = demoLoft();
  const people = loft.people.map((person) => ({ ...person, pin: STORED }));
  return { ...loft, people, settings: { ...loft.settings, pin: 'eachHold' } };
}

/** Packs until the first hold, where an inspector is wanted. */
async function atHold(): Promise<KioskRig> {
  const rig = await startRig({ loft: loftWithPins(), pinFits: (pin) => Promise.resolve(pin === PIN) });
  await toFirstStage(rig);
  await toHold(rig);
  return rig;
}

function pinOf(rig: KioskRig): PinView | null {
  const view = rig.view();
  return view.screen === 'pack' ? (view.pin ?? null) : null;
}

const kindsOf = (rig: KioskRig): readonly string[] => rig.ledger.facts().map(({ body }) => body.kind);

async function enter(rig: KioskRig, digits: string): Promise<void> {
  rig.kiosk.acts.pin?.enter(digits);
  await rig.settle();
}

describe('the PIN pad', () => {
  it('comes with the badge, and the right PIN lets the inspector in', async () => {
    const rig = await atHold();
    await rig.badge('tomas-veller');
    expect(pinOf(rig)?.person).toBe('Tomas Veller');
    expect(kindsOf(rig)).not.toContain('inspectorPresent');
    await enter(rig, PIN);
    expect(pinOf(rig)).toBeNull();
    expect(kindsOf(rig)).toContain('inspectorPresent');
    expect(JSON.stringify(rig.ledger.facts())).not.toContain(PIN);
    expect(rig.mouth.said.join(' ')).not.toContain(PIN);
  });

  it('a wrong PIN is a fact, and the badge has to be scanned again', async () => {
    const rig = await atHold();
    await rig.badge('tomas-veller');
    await enter(rig, '482914');
    expect(pinOf(rig)).toBeNull();
    expect(rig.pack().notice?.text).toContain('The PIN is wrong');
    expect(rig.ledger.facts().at(-1)?.body).toMatchObject({ kind: 'scanRefused', reason: 'pin-wrong' });
    await enter(rig, PIN);
    expect(kindsOf(rig)).not.toContain('inspectorPresent');
  });

  it('does not come for who may not inspect, and says why instead', async () => {
    const rig = await atHold();
    await rig.badge('hazel-orrin');
    expect(pinOf(rig)).toBeNull();
    expect(rig.pack().notice?.text).toContain('has packed this assembly');
  });

  it('takes nothing else meanwhile: no voice, no card, no label', async () => {
    const rig = await atHold();
    const before = rig.ledger.facts().length;
    await rig.badge('tomas-veller');
    await rig.say({ name: 'releaseHold' });
    await rig.touch({ name: 'stopAndTag' });
    await rig.scan('SC:standBy');
    await rig.scan('QHB-2104-017');
    expect(rig.ledger.facts().length).toBe(before);
    expect(pinOf(rig)).not.toBeNull();
    rig.kiosk.acts.pin?.cancel();
    await rig.settle();
    expect(pinOf(rig)).toBeNull();
    expect(rig.ledger.facts().length).toBe(before);
  });

  it('another badge takes its place, and what was typed for the first is for nobody', async () => {
    const rig = await atHold();
    await rig.badge('tomas-veller');
    const first = pinOf(rig)?.key;
    await rig.badge('ines-calloway');
    expect(pinOf(rig)?.person).toBe('Ines Calloway');
    expect(pinOf(rig)?.key).not.toBe(first);
  });

  it('too few digits are not compared', async () => {
    const rig = await atHold();
    await rig.badge('tomas-veller');
    await enter(rig, '48291');
    expect(pinOf(rig)?.checking).toBe(false);
  });

  it('a PIN entered after the time for a verdict opens nothing', async () => {
    const rig = await atHold();
    await rig.badge('tomas-veller');
    rig.wait(91_000);
    await enter(rig, PIN);
    expect(kindsOf(rig)).not.toContain('inspectorPresent');
  });
});
