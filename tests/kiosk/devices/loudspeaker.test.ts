/** What a late loudspeaker, a silent one and a headset mean for the ear, and that the ear stays shut for as long. */
import { describe, expect, it } from 'vitest';
import { createConversation } from '../../../src/kiosk/conversation';
import { delayOf, NOT_MEASURED, UNKNOWN_MS } from '../../../src/kiosk/devices/loudspeaker';
import { fakeEar } from '../../fakes/ear';
import { fakeMouth } from '../../fakes/mouth';
import { startRig } from '../rig';

const settle = async (): Promise<void> => {
  for (let turn = 0; turn < 10; turn += 1) await Promise.resolve();
};

describe('the delay of the loudspeaker', () => {
  it.each([
    [40, ''],
    [1_100, 'The loudspeaker answers 1.1 s late: the kiosk listens later.'],
    [2_500, 'The loudspeaker answers 2.5 s late: the kiosk listens later.'],
  ])('of %d ms is waited for', async (ms, text) => {
    const delay = await delayOf('open', () => Promise.resolve(ms));
    expect(delay.text).toBe(text);
    expect(delay.guardMs).toBeGreaterThan(ms);
    expect(delay.guardMs).toBeLessThan(ms + 100);
  });

  it.each([
    ['was not heard', () => Promise.resolve(null)],
    ['could not be measured', () => Promise.reject(new Error('no microphone'))],
  ])('that %s is unknown: the ear stays shut for longer, and the screen says so', async (_, measure) => {
    const delay = await delayOf('open', measure);
    expect(delay.guardMs).toBe(UNKNOWN_MS);
    expect(delay.text).toMatch(/^The chime was not heard: .* headset/);
  });

  it('is unknown before it was measured', () => {
    expect(NOT_MEASURED.guardMs).toBe(UNKNOWN_MS);
  });

  it('of a headset is none, and no chime is played', async () => {
    const measure = (): Promise<number | null> => Promise.reject(new Error('no chime is to be played'));
    expect(await delayOf('headset', measure)).toEqual({ guardMs: 0, text: '' });
  });
});

describe('the ear', () => {
  it('stays shut after the voice has ended until what was said is surely heard', async () => {
    let release: () => void = () => undefined;
    const heardOut = (): Promise<void> => new Promise((resolve) => (release = resolve));
    const ear = fakeEar();
    const mouth = fakeMouth({ instant: false });
    const talk = createConversation({ ear, mouth, heardOut, onCommand: () => undefined, onState: () => undefined });
    talk.present({ key: '1', say: 'Bag. Is that right?', show: '' }, { commands: ['affirm'], nouns: [] }, 1);
    await mouth.finish();
    await settle();
    expect(ear.open()).toBeNull();
    release();
    await settle();
    expect(ear.open()).toEqual({ commands: ['affirm'], nouns: [] });
  });
});

describe('a kiosk that is being started', () => {
  it('takes a badge while the chime is listened for, and says nothing until then', async () => {
    let tell: (ms: number | null) => void = () => undefined;
    const rig = await startRig({ measureDelay: () => new Promise((resolve) => (tell = resolve)) });
    expect(rig.marks).toContain('ready');
    expect(rig.mouth.said).toEqual([]);
    await rig.badge('hazel-orrin');
    expect(rig.view().screen).toBe('pack');
    expect(rig.mouth.said).toEqual([]);
    tell(0);
    await rig.settle();
    expect(rig.mouth.said).toHaveLength(1);
  });

  it('says on the screen that the loudspeaker is late, or was not heard, and measures anew when devices change', async () => {
    const delays = [1_100, null, 30];
    let measured = 0;
    const rig = await startRig({ measureDelay: () => Promise.resolve(delays[measured++] ?? null) });
    const voice = (): string => {
      const view = rig.view();
      return view.screen === 'start' ? (view.start.checks.find(({ part }) => part === 'voice')?.detail ?? '?') : '?';
    };
    expect(voice()).toBe('The loudspeaker answers 1.1 s late: the kiosk listens later.');
    await rig.kiosk.recheck();
    expect(measured).toBe(1);
    await rig.kiosk.devicesChanged();
    expect(voice()).toMatch(/^The chime was not heard/);
    await rig.kiosk.devicesChanged();
    expect(voice()).toBe('');
    expect(measured).toBe(3);
  });
});
