/** A tag sticks: over packs, restarts and other riggers, until somebody qualified who did not pack takes it off. */
import { describe, expect, it } from 'vitest';
import { demoLoft } from '../e2e/support/demo-loft';
import { createFakeDisk } from '../fakes/ledger';
import { startRig, stopPack, toFirstStage, type KioskRig } from './rig';

const SERIALS = ['QHB-2104-017', 'KLD-3968-552', 'RSY-7590-483'];

async function checkIn(rig: KioskRig, rigger: string): Promise<string> {
  await rig.badge(rigger);
  for (const serial of SERIALS) {
    await rig.scan(serial);
    await rig.say({ name: 'affirm' });
  }
  return rig.pack().detail.screen;
}

async function showTags(rig: KioskRig): Promise<void> {
  rig.kiosk.acts.showTags?.();
  await rig.settle();
  expect(rig.view().screen).toBe('tags');
}

async function takeOff(rig: KioskRig, inspector: string): Promise<void> {
  await rig.say({ name: 'finding', number: 1 });
  await rig.say({ name: 'finding', number: 2 });
  await rig.badge(inspector);
  await rig.say({ name: 'affirm' });
}

const tagsOf = (rig: KioskRig) => {
  const view = rig.view();
  return view.screen === 'tags' ? view.tags.tags : [];
};

describe('a pack that was stopped', () => {
  it('leaves tags that stop the next check-in, after a restart and by another rigger too', async () => {
    const disk = createFakeDisk();
    const rig = await startRig({ disk });
    await toFirstStage(rig);
    await stopPack(rig);
    const next = await startRig({ disk });
    expect(await checkIn(next, 'ines-calloway')).toBe('blocked');
    const { detail } = next.pack();
    const failed = detail.screen === 'blocked' ? detail.checks.filter(({ passed }) => !passed) : [];
    expect(failed.map(({ label }) => label)).toEqual(['Bag: tags', 'Container: tags', 'Canopy: tags']);
  });

  it('can be packed again once every tag was taken off by an inspector who did not pack', async () => {
    const disk = createFakeDisk();
    const rig = await startRig({ disk });
    await toFirstStage(rig);
    await stopPack(rig);
    rig.kiosk.acts.leave();
    await showTags(rig);
    expect(
      tagsOf(rig)
        .map(({ serial }) => serial)
        .sort(),
    ).toEqual([...SERIALS].sort());
    await takeOff(rig, 'hazel-orrin');
    expect(tagsOf(rig)).toHaveLength(3);
    await rig.say({ name: 'negative' });
    await rig.say({ name: 'negative' });
    for (let left = 3; left > 0; left -= 1) {
      expect(tagsOf(rig)).toHaveLength(left);
      await takeOff(rig, 'tomas-veller');
    }
    expect(tagsOf(rig)).toEqual([]);
    const cleared = rig.ledger.facts().filter(({ body }) => body.kind === 'tagCleared');
    expect(cleared.map(({ pack, by }) => [pack, by])).toEqual(Array(3).fill(['loft', 'tomas-veller']));
    rig.kiosk.acts.leave();
    await rig.settle();
    expect(await checkIn(rig, 'hazel-orrin')).toBe('inspection');
    // The stream of the loft is no open pack: a restart comes back to the pack and not to it.
    const again = await startRig({ disk });
    expect(again.pack().detail.screen).toBe('inspection');
  });

  it('records that the clock was set back before a tag was taken off, and lets nobody do it whose time had ended', async () => {
    const whole = demoLoft();
    const people = whole.people.map((one) => (one.id === 'tomas-veller' ? { ...one, validTo: '2026-11-24' } : one));
    const rig = await startRig({ loft: { ...whole, people } });
    await toFirstStage(rig);
    await stopPack(rig);
    rig.kiosk.acts.leave();
    rig.wait(-2 * 86_400_000);
    await showTags(rig);
    await takeOff(rig, 'tomas-veller');
    const refused = rig.view();
    expect(refused.screen === 'tags' && refused.tags.notice?.text).toContain('ended on');
    expect(tagsOf(rig)).toHaveLength(3);
    await rig.say({ name: 'negative' });
    await rig.say({ name: 'negative' });
    await takeOff(rig, 'ines-calloway');
    expect(tagsOf(rig)).toHaveLength(2);
    const own = rig.ledger.facts().filter(({ pack }) => pack === 'loft');
    expect(own.map(({ body }) => body.kind)).toEqual(['clockJumped', 'peopleInForce', 'tagCleared']);
    expect(own[0]?.body).toMatchObject({ from: rig.ledger.facts().findLast(({ pack }) => pack !== 'loft')?.at });
  });

  it('keeps its tags where the journal cannot store that one was taken off', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    await stopPack(rig);
    rig.kiosk.acts.leave();
    await showTags(rig);
    rig.ledger.failNext('full');
    await takeOff(rig, 'tomas-veller');
    expect(tagsOf(rig)).toHaveLength(3);
    const view = rig.view();
    expect(view.screen === 'tags' && view.tags.notice?.text).toContain('the tag stays');
  });
});
