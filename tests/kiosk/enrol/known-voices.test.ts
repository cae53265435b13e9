/** Whose voice the ear knows while a pack goes on: of those at work, of nobody else, and without making anything legal. */
import { describe, expect, it } from 'vitest';
import { voiceOwner } from '../../../src/kiosk/enrol/owner';
import { fakeSample } from '../../fakes/ear';
import { fakeSampleStore, type FakeSampleStore } from '../../fakes/sample-store';
import { LINES, startRig, toFirstStage, toHold, workOn, type KioskRig, stopPack } from '../rig';

const VERDICTS = ['release hold', 'send back for rework'];
/** Samples that can be told apart by whose they are. */
const voiceOf = (mark: number) =>
  LINES.map(({ words }) => ({ ...fakeSample(words), features: new Float32Array(13).fill(mark) }));
const MARKS: Readonly<Record<string, number>> = { 'hazel-orrin': 1, 'tomas-veller': 2, 'ines-calloway': 3 };

function storeOfAll(): FakeSampleStore {
  const sampleStore = fakeSampleStore();
  for (const [id, mark] of Object.entries(MARKS)) sampleStore.kept.set(voiceOwner({ id }), voiceOf(mark));
  return sampleStore;
}

/** Whose voices are known, in order. */
function known(rig: KioskRig): readonly string[] {
  const marks = rig.ear.known().map(({ features }) => features[0]);
  return Object.keys(MARKS).filter((id) => marks.includes(MARKS[id]));
}

function knownWords(rig: KioskRig, id: string): readonly string[] {
  return rig.ear
    .known()
    .filter(({ features }) => features[0] === MARKS[id])
    .map(({ words }) => words);
}

async function atHold(sampleStore = storeOfAll()): Promise<KioskRig> {
  const rig = await startRig({ sampleStore });
  await toFirstStage(rig);
  await toHold(rig);
  return rig;
}

describe('the voices that are known', () => {
  it('nobody’s at the start', async () => {
    const rig = await startRig({ sampleStore: storeOfAll() });
    expect(known(rig)).toEqual([]);
  });

  it('the packer’s from the badge on, and never for a verdict', async () => {
    const rig = await startRig({ sampleStore: storeOfAll() });
    await rig.badge('ines-calloway');
    expect(known(rig)).toEqual(['ines-calloway']);
    expect(knownWords(rig, 'ines-calloway')).toEqual(
      LINES.map(({ words }) => words).filter((words) => !VERDICTS.includes(words)),
    );
  });

  it('nobody’s where the packer has read nothing', async () => {
    const rig = await startRig({ sampleStore: fakeSampleStore() });
    await rig.badge('hazel-orrin');
    expect(known(rig)).toEqual([]);
  });

  it('the inspector’s too, while the verdict is open, with the words for it', async () => {
    const rig = await atHold();
    expect(known(rig)).toEqual(['hazel-orrin']);
    await rig.badge('tomas-veller');
    expect(known(rig)).toEqual(['hazel-orrin', 'tomas-veller']);
    expect(knownWords(rig, 'tomas-veller')).toEqual(LINES.map(({ words }) => words));
    expect(knownWords(rig, 'hazel-orrin')).not.toContain('release hold');
    await rig.say({ name: 'releaseHold' });
    expect(known(rig)).toEqual(['hazel-orrin', 'tomas-veller']);
    await rig.say({ name: 'affirm' });
    expect(rig.pack().detail.screen).not.toBe('hold');
    expect(known(rig)).toEqual(['hazel-orrin']);
  });

  it('not of an inspector who was turned away', async () => {
    const rig = await atHold();
    await rig.badge('kester-lund');
    expect(known(rig)).toEqual(['hazel-orrin']);
  });

  it('of whom the pack was handed over to, and not of whom it was handed over by', async () => {
    const rig = await startRig({ sampleStore: storeOfAll() });
    await toFirstStage(rig);
    await rig.say({ name: 'standBy' });
    await rig.badge('ines-calloway');
    // One badge hands over nothing: the voice is still the packer's.
    expect(known(rig)).toEqual(['hazel-orrin']);
    await rig.say({ name: 'finding', number: 1 });
    await rig.badge('hazel-orrin');
    expect(rig.pack().packer).toBe('Ines Calloway');
    expect(known(rig)).toEqual(['ines-calloway']);
  });

  it('nobody’s when the pack is over, though its screen still stands', async () => {
    const rig = await startRig({ sampleStore: storeOfAll() });
    await toFirstStage(rig);
    await stopPack(rig);
    expect(rig.pack().ended).toBe(true);
    expect(known(rig)).toEqual([]);
    rig.kiosk.acts.leave();
    await rig.badge('ines-calloway');
    expect(known(rig)).toEqual(['ines-calloway']);
  });

  it('nobody’s in a rehearsal', async () => {
    const rig = await startRig({ sampleStore: storeOfAll() });
    rig.kiosk.acts.rehearse('corrow-c3-cargo');
    await rig.settle();
    expect(known(rig)).toEqual([]);
  });

  it('nobody’s while the sample store is still being asked: not even of whom was known before', async () => {
    const sampleStore = storeOfAll();
    const rig = await startRig({ sampleStore });
    await toFirstStage(rig);
    await rig.say({ name: 'standBy' });
    await rig.badge('ines-calloway');
    await rig.say({ name: 'finding', number: 1 });
    const letGo = sampleStore.holdFinds();
    await rig.badge('hazel-orrin');
    expect(rig.pack().packer).toBe('Ines Calloway');
    expect(known(rig)).toEqual([]);
    letGo();
    await rig.settle();
    expect(known(rig)).toEqual(['ines-calloway']);
  });

  it('an answer that comes after the pack was left is for nobody', async () => {
    const sampleStore = storeOfAll();
    const letGo = sampleStore.holdFinds();
    const rig = await startRig({ sampleStore });
    await toFirstStage(rig);
    await stopPack(rig);
    letGo();
    await rig.settle();
    expect(known(rig)).toEqual([]);
  });

  it('are told once for those who are at work, not at every word', async () => {
    const rig = await startRig({ sampleStore: storeOfAll() });
    await toFirstStage(rig);
    const before = rig.ear.tellings();
    await rig.say({ name: 'stageComplete' });
    await rig.say({ name: 'sayAgain' });
    expect(rig.ear.tellings()).toBe(before);
  });

  it('a voice that was erased is not known in the next pack', async () => {
    const rig = await startRig({ sampleStore: storeOfAll() });
    rig.kiosk.acts.teachVoice?.();
    await rig.badge('hazel-orrin');
    await rig.touch({ name: 'correction' });
    await rig.touch({ name: 'finish' });
    await rig.badge('hazel-orrin');
    expect(rig.pack().packer).toBe('Hazel Orrin');
    expect(known(rig)).toEqual([]);
  });
});

describe('what is legal', () => {
  /** The open vocabulary at each step up to the first hold and through it. */
  async function vocabularies(sampleStore: FakeSampleStore): Promise<readonly string[]> {
    const rig = await startRig({ sampleStore });
    await toFirstStage(rig);
    const seen: string[] = [];
    const note = (): void => void seen.push(JSON.stringify(rig.ear.open()));
    for (let step = 0; step < 60 && rig.pack().detail.screen !== 'hold'; step += 1) {
      note();
      await workOn(rig);
    }
    note();
    await rig.badge('tomas-veller');
    note();
    await rig.say({ name: 'releaseHold' });
    note();
    return seen;
  }

  it('is the same whether voices are known or not', async () => {
    const [without, withAll] = [await vocabularies(fakeSampleStore()), await vocabularies(storeOfAll())];
    expect(without.length).toBeGreaterThan(4);
    expect(withAll).toEqual(without);
  });

  it('a hold opens to no known voice without the inspector’s badge', async () => {
    const rig = await atHold();
    const before = rig.ledger.facts().length;
    await rig.say({ name: 'releaseHold' });
    await rig.read('release hold');
    expect(rig.ledger.facts().length).toBe(before);
    expect(rig.pack().detail.screen).toBe('hold');
  });
});
