/** Teaching the kiosk a voice, at the running kiosk: who may, how it goes, what is kept, and how it is erased. */
import { describe, expect, it, vi, type MockInstance } from 'vitest';
import { voiceOwner } from '../../../src/kiosk/enrol/owner';
import { LINES_MIN } from '../../../src/kiosk/enrol/reading';
import type { EnrolView } from '../../../src/screens/contract/enrol-view';
import { fakeSample } from '../../fakes/ear';
import { fakeSampleStore, type FakeSampleStore } from '../../fakes/sample-store';
import { LINES, startRig, toFirstStage, type KioskRig } from '../rig';

const HAZEL = voiceOwner({ id: 'hazel-orrin' });
const INES = voiceOwner({ id: 'ines-calloway' });
/** What somebody who does not inspect reads. */
const OWN_LINES = LINES.map(({ words }) => words).filter((words) => !/release|rework/.test(words));

const SOME = OWN_LINES.slice(0, LINES_MIN);

interface EnrolRig extends KioskRig {
  readonly sampleStore: FakeSampleStore;
  enrol(): EnrolView;
}

async function atBadge(
  sampleStore = fakeSampleStore(),
  options: Parameters<typeof startRig>[0] = {},
): Promise<EnrolRig> {
  const rig = await startRig({ sampleStore, ...options });
  rig.kiosk.acts.teachVoice?.();
  await rig.settle();
  const enrol = (): EnrolView => {
    const view = rig.view();
    if (view.screen !== 'enrol') throw new Error(`no enrolment is shown but ${view.screen}`);
    return view.enrol;
  };
  return { ...rig, sampleStore, enrol };
}

async function reading(sampleStore = fakeSampleStore(), person = 'hazel-orrin'): Promise<EnrolRig> {
  const rig = await atBadge(sampleStore);
  await rig.badge(person);
  await rig.touch({ name: 'affirm' });
  return rig;
}

const line = (rig: EnrolRig): string | null => {
  const { step } = rig.enrol();
  return step.at === 'reading' ? step.words : null;
};

async function readAll(rig: EnrolRig): Promise<void> {
  for (let words = line(rig); words !== null; words = line(rig)) await rig.read(words);
}

/** Enough to be of use. */
async function readSome(rig: EnrolRig): Promise<void> {
  for (const words of SOME) await rig.read(words);
}

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

describe('reading', () => {
  it('line after line, kept at the end under the owner’s digest, and nothing in the journal', async () => {
    const rig = await reading();
    const seen: (string | null)[] = [];
    for (let words = line(rig); words !== null; words = line(rig)) {
      seen.push(words);
      await rig.read(words);
    }
    expect(seen).toEqual(OWN_LINES);
    expect(rig.enrol()).toMatchObject({ step: { at: 'done', outcome: 'kept' } });
    expect([...rig.sampleStore.kept.keys()]).toEqual([HAZEL]);
    expect(rig.sampleStore.kept.get(HAZEL)).toEqual(OWN_LINES.map(fakeSample));
    expect(rig.ledger.facts()).toEqual([]);
  });

  it('an inspector reads the verdicts too', async () => {
    const rig = await reading(fakeSampleStore(), 'ines-calloway');
    await readAll(rig);
    expect(rig.sampleStore.kept.get(INES)).toHaveLength(LINES.length);
  });

  it('what is said is a sample and never a command', async () => {
    const rig = await reading();
    expect(rig.ear.open()).toBeNull();
    expect(rig.ear.sampling()).toBe('stage complete');
    await rig.say({ name: 'finish' });
    expect(rig.enrol().step.at).toBe('reading');
    expect(rig.enrol().legal.every(({ phrase }) => phrase === '')).toBe(true);
  });

  it('the ear is closed while the kiosk speaks', async () => {
    const rig = await reading();
    rig.ear.read('something else');
    await rig.settle();
    expect(rig.mouth.said.at(-1)).toContain('Read stage complete once more.');
    const before = rig.mouth.said.length;
    rig.kiosk.acts.command({ name: 'sayAgain' }, 'key');
    expect(rig.kiosk.statusBar.get()).toMatchObject({ speaking: true, ear: 'closed' });
    expect(rig.ear.sampling()).toBeNull();
    rig.ear.read('stage complete');
    await rig.settle();
    expect(rig.mouth.said.slice(before)).toEqual(['The line stage complete is to be read.']);
    expect(line(rig)).toBe('stage complete');
    expect(rig.ear.sampling()).toBe('stage complete');
  });

  it('lines that were heard are not talked over: only what went wrong is said', async () => {
    const rig = await reading();
    expect(rig.mouth.said.at(-1)).toContain('Read each line aloud');
    const before = rig.mouth.said.length;
    await rig.read('stage complete');
    await rig.read('affirm');
    expect(rig.mouth.said).toHaveLength(before);
    rig.ear.noise(true);
    await rig.settle();
    expect(rig.mouth.said.at(-1)).toBe('Too loud here. Come nearer to the microphone. Read negative once more.');
  });

  it('a line that is not heard is asked for twice again and then left out', async () => {
    const rig = await reading();
    for (let tries = 0; tries < 3; tries += 1) {
      expect(line(rig)).toBe('stage complete');
      rig.ear.noise();
      await rig.settle();
    }
    expect(line(rig)).toBe('affirm');
    expect(rig.mouth.said.at(-1)).toContain('That line is left out.');
    await readAll(rig);
    expect(rig.sampleStore.kept.get(HAZEL)).toHaveLength(OWN_LINES.length - 1);
    expect(rig.enrol().prompt.show).toContain(`${OWN_LINES.length - 1} of ${OWN_LINES.length} lines`);
  });

  it('a line can be left out on purpose', async () => {
    const rig = await reading();
    await rig.touch({ name: 'next' });
    expect(line(rig)).toBe('affirm');
    expect(rig.ear.sampling()).toBe('affirm');
  });

  it('a badge or a label that lies in view meanwhile changes nothing', async () => {
    const rig = await reading();
    await rig.badge('ines-calloway');
    await rig.scan('QHB-2104-017');
    expect(rig.enrol()).toMatchObject({ person: 'Hazel Orrin', step: { at: 'reading', number: 1 } });
  });

  it('the command card steers it as hands do', async () => {
    const rig = await atBadge();
    await rig.badge('hazel-orrin');
    await rig.scan('SC:affirm');
    expect(rig.enrol().step.at).toBe('reading');
    await rig.scan('SC:stopAndTag');
    expect(rig.enrol().step.at).toBe('reading');
    await rig.scan('SC:finish');
    expect(rig.enrol()).toMatchObject({ step: { at: 'done', outcome: 'nothing' } });
  });
});

describe('stopping', () => {
  it('before any line keeps nothing', async () => {
    const rig = await reading();
    await rig.touch({ name: 'finish' });
    expect(rig.enrol()).toMatchObject({ step: { at: 'done', outcome: 'nothing' } });
    expect(rig.sampleStore.kept.size).toBe(0);
    expect(rig.ear.sampling()).toBeNull();
  });

  it('after too few lines to be of use keeps nothing and says so', async () => {
    const rig = await reading();
    for (const words of SOME.slice(1)) {
      await rig.read(line(rig) ?? words);
    }
    await rig.touch({ name: 'finish' });
    expect(rig.enrol()).toMatchObject({ step: { at: 'done', outcome: 'nothing' } });
    expect(rig.enrol().prompt.show).toContain('Fewer than 4 lines are of no use.');
    expect(rig.sampleStore.kept.size).toBe(0);
  });

  it('later asks, and keeps nothing unless it is affirmed', async () => {
    const rig = await reading();
    await readSome(rig);
    await rig.touch({ name: 'finish' });
    expect(rig.enrol().step.at).toBe('stopped');
    expect(rig.ear.sampling()).toBeNull();
    await rig.touch({ name: 'negative' });
    expect(rig.enrol()).toMatchObject({ step: { at: 'done', outcome: 'nothing' } });
    expect(rig.sampleStore.kept.size).toBe(0);
  });

  it('affirmed, what was read is kept', async () => {
    const rig = await reading();
    await readSome(rig);
    await rig.touch({ name: 'finish' });
    await rig.touch({ name: 'affirm' });
    expect(rig.sampleStore.kept.get(HAZEL)).toEqual(SOME.map(fakeSample));
  });

  it('is taken at once, however quickly it comes after a new line', async () => {
    const rig = await reading();
    await readSome(rig);
    rig.kiosk.acts.command({ name: 'finish' }, 'touch');
    expect(rig.enrol().step.at).toBe('stopped');
  });

  it('by leaving keeps nothing and closes the ear', async () => {
    const rig = await reading();
    await readSome(rig);
    rig.kiosk.acts.leave();
    await rig.settle();
    expect(rig.view().screen).toBe('start');
    expect(rig.sampleStore.kept.size).toBe(0);
    expect([rig.ear.sampling(), rig.ear.open()]).toEqual([null, null]);
  });

  it('a microphone that is unplugged ends the reading and says so', async () => {
    const rig = await reading();
    await readSome(rig);
    rig.ear.unplug();
    await rig.settle();
    expect(rig.enrol()).toMatchObject({ step: { at: 'stopped' }, notice: { tone: 'refusal' } });
    expect(rig.sampleStore.kept.size).toBe(0);
  });

  it('a kiosk that cannot hear reads nothing and says why', async () => {
    const rig = await atBadge(fakeSampleStore(), { ear: 'absent' });
    await rig.badge('hazel-orrin');
    await rig.touch({ name: 'affirm' });
    expect(rig.enrol()).toMatchObject({ step: { at: 'done', outcome: 'nothing' }, notice: { tone: 'refusal' } });
  });
});

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
