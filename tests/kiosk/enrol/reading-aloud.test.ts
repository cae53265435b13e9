/** Teaching the kiosk a voice: line after line, stopping, and what is kept. */
import { describe, expect, it } from 'vitest';
import { fakeSample } from '../../fakes/ear';
import { fakeSampleStore } from '../../fakes/sample-store';
import { LINES } from '../rig';
import { HAZEL, INES, OWN_LINES, SOME, atBadge, reading, line, readAll, readSome } from './enrol-rig';

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
