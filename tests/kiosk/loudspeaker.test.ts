/** What a late loudspeaker, a silent one and a headset mean for the ear, and that the ear stays shut for as long. */
import { describe, expect, it } from 'vitest';
import { createConversation } from '../../src/kiosk/conversation';
import { delayOf, NOT_MEASURED, UNKNOWN_MS } from '../../src/kiosk/loudspeaker';
import { fakeEar } from '../fakes/ear';
import { fakeMouth } from '../fakes/mouth';

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
