/** Teaching the kiosk a voice: from where it is opened, and who may. */
import { describe, expect, it } from 'vitest';
import { voiceOwner } from '../../../src/kiosk/enrol/owner';
import { fakeSample } from '../../fakes/ear';
import { fakeSampleStore } from '../../fakes/sample-store';
import { startRig, toFirstStage } from '../rig';
import { OWN_LINES, atBadge } from './enrol-rig';

describe('opening it', () => {
  it('from the start screen, which offers it only where a voice can be kept', async () => {
    const rig = await startRig({ sampleStore: fakeSampleStore() });
    expect(rig.view()).toMatchObject({ start: { teachesVoice: true } });
    const without = await startRig();
    expect(without.view()).toMatchObject({ start: { teachesVoice: false } });
    without.kiosk.acts.teachVoice?.();
    expect(without.view().screen).toBe('start');
  });

  it('never beside a pack or a rehearsal', async () => {
    const rig = await startRig({ sampleStore: fakeSampleStore() });
    rig.kiosk.acts.rehearse('corrow-c3-cargo');
    rig.kiosk.acts.teachVoice?.();
    expect(rig.view().screen).toBe('rehearsal');
    rig.kiosk.acts.leave();
    await toFirstStage(rig);
    rig.kiosk.acts.teachVoice?.();
    expect(rig.view().screen).toBe('pack');
  });

  it('asks for the badge, aloud and on the screen, and opens no pack with it', async () => {
    const rig = await atBadge();
    expect(rig.mouth.said.at(-1)).toContain('Scan your badge');
    expect(rig.enrol().prompt.show).toContain('Scan your badge');
    await rig.badge('hazel-orrin');
    expect(rig.enrol()).toMatchObject({ person: 'Hazel Orrin', step: { at: 'ready' } });
    expect(rig.ledger.facts()).toEqual([]);
  });

  it('says before anything is read what is kept, where, and how to erase it', async () => {
    const rig = await atBadge();
    await rig.badge('hazel-orrin');
    const text = JSON.stringify(rig.enrol().step);
    for (const words of ['No recording', 'On this kiosk alone', 'press Erase my voice']) expect(text).toContain(words);
    expect(rig.enrol().prompt.show).toContain(`Read ${OWN_LINES.length} short lines`);
  });
});

describe('who may not', () => {
  it.each([
    ['bram-sedley', /ended on/],
    ['odile-marsh', /revoked/],
    ['effie-brandt', /neither packs nor inspects/],
  ])('%s is told why', async (person, why) => {
    const rig = await atBadge();
    await rig.badge(person);
    expect(rig.enrol()).toMatchObject({ person: null, step: { at: 'badge' }, notice: { tone: 'refusal' } });
    expect(rig.enrol().notice?.text).toMatch(why);
    expect(rig.mouth.said.at(-1)).toMatch(why);
  });

  it.each([
    ['QHB-2104-017', /not a badge/],
    ['SBZZZZZZZZZZZZZZZZZ', /badge/],
  ])('%s is no badge', async (payload, why) => {
    const rig = await atBadge();
    await rig.scan(payload);
    expect(rig.enrol().notice?.text).toMatch(why);
    expect(rig.enrol().step.at).toBe('badge');
  });

  it('whoever may not read anew can still have a former voice erased, and nothing else', async () => {
    const sampleStore = fakeSampleStore();
    sampleStore.kept.set(voiceOwner({ id: 'odile-marsh' }), [fakeSample('affirm')]);
    const rig = await atBadge(sampleStore);
    await rig.badge('odile-marsh');
    expect(rig.enrol().legal.map(({ name }) => name)).toEqual(['correction', 'finish']);
    await rig.touch({ name: 'affirm' });
    expect(rig.enrol().step.at).toBe('ready');
    await rig.touch({ name: 'correction' });
    expect(sampleStore.kept.size).toBe(0);
  });
});
