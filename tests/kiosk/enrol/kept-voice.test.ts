/** Teaching the kiosk a voice: one that is kept already, erased, or that the sample store does not take. */
import { describe, expect, it, vi, type MockInstance } from 'vitest';
import { voiceOwner } from '../../../src/kiosk/enrol/owner';
import { fakeSample } from '../../fakes/ear';
import { fakeSampleStore } from '../../fakes/sample-store';
import { startRig, toFirstStage } from '../rig';
import { HAZEL, INES, OWN_LINES, atBadge, reading, readAll, readSome } from './enrol-rig';

describe('a voice that is there already', () => {
  it('is replaced by a new reading', async () => {
    const sampleStore = fakeSampleStore();
    sampleStore.kept.set(HAZEL, [fakeSample('stop and tag')]);
    const rig = await atBadge(sampleStore);
    await rig.badge('hazel-orrin');
    expect(rig.enrol().prompt.show).toBe('Your voice is kept here, in 1 line. To replace it, read again.');
    await rig.touch({ name: 'affirm' });
    await readAll(rig);
    expect(sampleStore.kept.get(HAZEL)).toEqual(OWN_LINES.map(fakeSample));
  });

  it('stays when the new reading is given up', async () => {
    const sampleStore = fakeSampleStore();
    sampleStore.kept.set(HAZEL, [fakeSample('stop and tag')]);
    const rig = await reading(sampleStore);
    await readSome(rig);
    await rig.touch({ name: 'finish' });
    expect(rig.enrol().prompt.show).toContain('Keep them, in place of the former ones, or nothing?');
    await rig.touch({ name: 'negative' });
    expect(sampleStore.kept.get(HAZEL)).toEqual([fakeSample('stop and tag')]);
  });

  it('is erased at once on wish, and others are not', async () => {
    const sampleStore = fakeSampleStore();
    sampleStore.kept.set(HAZEL, [fakeSample('affirm')]);
    sampleStore.kept.set(INES, [fakeSample('affirm')]);
    const rig = await atBadge(sampleStore);
    await rig.badge('hazel-orrin');
    await rig.touch({ name: 'correction' });
    expect([...sampleStore.kept.keys()]).toEqual([INES]);
    expect(rig.enrol()).toMatchObject({ step: { at: 'done', outcome: 'erased' } });
    await rig.touch({ name: 'finish' });
    expect(rig.view().screen).toBe('start');
  });

  it('that cannot be used is told, and can be erased', async () => {
    const sampleStore = fakeSampleStore();
    sampleStore.damaged.set(HAZEL, ['The line "affirm" is damaged. Read it again.', 'Another.']);
    const rig = await atBadge(sampleStore);
    await rig.badge('hazel-orrin');
    expect(rig.enrol().notice?.text).toBe(
      'The line "affirm" is damaged. Read it again. 2 lines in all cannot be used.',
    );
    await rig.touch({ name: 'correction' });
    expect(sampleStore.damaged.size).toBe(0);
  });

  it('of somebody who has left the loft is gone at the next start', async () => {
    const sampleStore = fakeSampleStore();
    sampleStore.kept.set(HAZEL, [fakeSample('affirm')]);
    sampleStore.kept.set(voiceOwner({ id: 'gone' }), [fakeSample('affirm')]);
    await startRig({ sampleStore });
    expect([...sampleStore.kept.keys()]).toEqual([HAZEL]);
  });
});

describe('the sample store', () => {
  it('is touched only after the journal was opened: a browser tells the first of lost databases', async () => {
    const sampleStore = fakeSampleStore();
    const tidied = vi.spyOn(sampleStore, 'eraseOthers');
    let opened: MockInstance | null = null;
    await startRig({
      sampleStore,
      beforeStart: (ledger) => {
        opened = vi.spyOn(ledger, 'open');
      },
    });
    const orders = (spy: MockInstance | null): readonly number[] => spy?.mock.invocationCallOrder ?? [];
    const [open, tidy] = [orders(opened)[0], orders(tidied)[0]];
    expect(open).toBeDefined();
    expect(tidy).toBeGreaterThan(open ?? 0);
  });
});

describe('a sample store that fails', () => {
  it('is told at the badge', async () => {
    const rig = await atBadge();
    rig.sampleStore.fail('denied');
    await rig.badge('hazel-orrin');
    expect(rig.enrol()).toMatchObject({ step: { at: 'badge' }, notice: { text: 'The sample store is denied.' } });
  });

  it('at the end is told, and nothing is called kept', async () => {
    const rig = await reading();
    rig.sampleStore.fail('full');
    await readAll(rig);
    expect(rig.enrol()).toMatchObject({
      step: { at: 'done', outcome: 'nothing' },
      notice: { tone: 'refusal', text: 'The sample store is full.' },
    });
  });

  it('when erasing is told, and nothing is called erased', async () => {
    const sampleStore = fakeSampleStore();
    sampleStore.kept.set(HAZEL, [fakeSample('affirm')]);
    const rig = await atBadge(sampleStore);
    await rig.badge('hazel-orrin');
    sampleStore.fail('unavailable');
    await rig.touch({ name: 'correction' });
    expect(rig.enrol()).toMatchObject({ step: { at: 'ready' }, notice: { tone: 'refusal' } });
  });

  it('that never answers can be left', async () => {
    const rig = await atBadge();
    rig.sampleStore.holdFinds();
    await rig.badge('hazel-orrin');
    await rig.badge('ines-calloway');
    expect(rig.enrol().step.at).toBe('badge');
    await rig.touch({ name: 'finish' });
    expect(rig.view().screen).toBe('start');
  });

  it('keeps nobody from packing', async () => {
    const sampleStore = fakeSampleStore();
    sampleStore.fail('unavailable');
    const rig = await startRig({ sampleStore });
    await toFirstStage(rig);
    expect(rig.pack().detail.screen).toBe('stage');
  });
});
