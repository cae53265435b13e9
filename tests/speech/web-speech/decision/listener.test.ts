/** The listener over an engine that is told what to find: what is told, what is dropped, and when. */
import { describe, expect, it } from 'vitest';
import type { ListenerEvent } from '../../../../src/speech/web-speech/decision/listener';
import { RecognitionListener } from '../../../../src/speech/web-speech/decision/listener';
import { FakeEngine, found, openFor, PHRASES, rig, SECOND, segment, silence, speech } from './listener-rig';

describe('a command', () => {
  it('is told in order, and decided before its pause is over', () => {
    const { listener, hear, events, engine } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6), silence(0.35));
    expect(engine.decoded).toBe(2);
    expect(events.map(({ kind }) => kind)).toEqual(['soundStart', 'speechStart', 'interim']);
    hear(silence(0.3));
    expect(engine.decoded).toBe(2);
    expect(events.map(({ kind }) => kind).slice(3)).toEqual(['speechEnd', 'soundEnd', 'final']);
    expect(events.at(-1)).toMatchObject({ verdict: { kind: 'heard', words: 'stand by' } });
  });

  it('that goes on after a short pause is decided as a whole', () => {
    const { listener, hear, finals, engine } = rig(found('stand by'), found('stand by'), found('say again'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.4), silence(0.32), speech(0.4), silence(0.6));
    expect(engine.decoded).toBe(4);
    expect(finals()).toEqual([{ kind: 'heard', words: 'say again' }]);
  });

  it('is looked at twice, the second time with its own phrase made dearer, and the next one as if it were the first', () => {
    const { listener, hear, engine } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6), silence(0.6));
    const [before, second, after] = engine.networks;
    expect(engine.networks).toHaveLength(3);
    expect(second?.start).not.toBe(before?.start);
    expect(after).toEqual(before);
  });

  it('is decided at once when the page says stop', () => {
    const { listener, hear, finals } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6));
    listener.finish();
    expect(finals()).toEqual([{ kind: 'heard', words: 'stand by' }]);
    hear(speech(0.6), silence(0.6));
    expect(finals()).toHaveLength(1);
  });
});

describe('what is not heard', () => {
  it.each([
    ['no path', [null]],
    ['other speech', [found('', true)]],
    ['other speech after a phrase', [found('stand by', true)]],
    ['only a pause', [found('')]],
    ['a phrase that is known but not listened for', [found('stand down')]],
    ['a phrase that one of those comes near', [found('stand by'), found('stand down')]],
    ['a phrase that other speech comes near', [found('stand by'), found('', true)]],
    ['words that nobody says so slowly', [{ ...found('stand by'), segments: [segment('stand', 20, 200, 5)] }]],
    [
      'words that leave half of the sound unexplained',
      [{ ...found('stand by'), segments: [segment('<sil>', 0, 60, 0)] }],
    ],
    ['a phrase that has no path the second time', [found('stand by'), null]],
  ])('%s', (_, finds) => {
    const { listener, hear, finals } = rig(...finds);
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6), silence(0.6));
    expect(finals()).toEqual([{ kind: 'notHeard' }]);
  });

  it('two phrases that are near become a question', () => {
    const { listener, hear, finals } = rig(found('stand by'), found('say again'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6), silence(0.6));
    expect(finals()).toEqual([{ kind: 'ambiguous', candidates: ['stand by', 'say again'] }]);
  });

  it('what sounds before the ear is open, also in one block with what comes after', () => {
    const { listener, hear, finals, events } = rig(found('stand by'));
    openFor(listener, PHRASES, SECOND + 100);
    hear(silence(0.2), speech(0.8));
    expect(events).toEqual([]);
    hear(silence(1));
    expect(finals()).toEqual([]);
  });

  it('what sounds while the ear is closed, and the rest of it after it opens', () => {
    const { listener, hear, events } = rig(found('stand by'));
    hear(silence(0.5), speech(0.6));
    openFor(listener, PHRASES, 0);
    listener.close();
    hear(speech(0.6), silence(0.6));
    expect(events).toEqual([]);
  });

  it('what was begun under another vocabulary', () => {
    const { listener, hear, finals } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.6));
    openFor(listener, PHRASES, 1.1 * SECOND);
    hear(silence(1));
    expect(finals()).toEqual([]);
  });

  it('the rest of what began before the ear was open, but the next that is said whole', () => {
    const { listener, hear, finals } = rig(found('stand by'));
    hear(silence(0.5));
    openFor(listener, PHRASES, 0.5 * SECOND);
    hear(silence(0.5));
    openFor(listener, PHRASES, SECOND);
    hear(speech(0.6), silence(0.6));
    expect(finals()).toEqual([{ kind: 'notHeard' }]);
    hear(speech(0.6), silence(0.6));
    expect(finals()[1]).toEqual({ kind: 'heard', words: 'stand by' });
  });

  it('what goes on after a gap between two words at which the ear was opened, but who answers as soon after silence', () => {
    const { listener, hear, finals } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(1));
    openFor(listener, PHRASES, 1.15 * SECOND);
    hear(speech(0.1), silence(0.11), speech(0.6), silence(0.6));
    expect(finals()).toEqual([{ kind: 'notHeard' }]);
    const next = rig(found('stand by'));
    openFor(next.listener, PHRASES, 0);
    next.hear(silence(1));
    openFor(next.listener, PHRASES, 1.15 * SECOND);
    next.hear(silence(0.21), speech(0.6), silence(0.6));
    expect(next.finals()).toEqual([{ kind: 'heard', words: 'stand by' }]);
  });

  it('a command with a hole in it', () => {
    const { listener, hear, finals, skip } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.4));
    skip(800);
    hear(speech(0.02), silence(1));
    expect(finals()).toEqual([{ kind: 'notHeard' }]);
  });

  it('a knock, which is not even answered', () => {
    const { listener, hear, finals, engine } = rig(found('stand by'));
    openFor(listener, PHRASES, 0);
    hear(silence(0.5), speech(0.06), silence(1));
    expect(finals()).toEqual([]);
    expect(engine.decoded).toBe(0);
  });
});

describe('grammars that cannot be used', () => {
  it.each([
    ['a word without pronunciation', '#JSGF V1.0; grammar test; public <a> = flumph;', 'unknown-word'],
    ['a text that is no grammar', 'stand by', 'bad-grammar'],
    ['a grammar of silence', '#JSGF V1.0; grammar test; public <a> = <NULL>;', 'bad-grammar'],
  ])('%s is refused and nothing is heard', (_, text, reason) => {
    const engine = new FakeEngine([found('stand by')], 'flumph');
    const events: ListenerEvent[] = [];
    const listener = new RecognitionListener(engine, (event) => events.push(event));
    expect(openFor(listener, PHRASES, 0).ok).toBe(true);
    expect(openFor(listener, { wanted: [text], others: [], rivals: [], lowRisk: [] }, 0)).toMatchObject({
      ok: false,
      reason,
    });
    for (let at = 0; at < 2 * SECOND; at += 320) {
      listener.push({ at, samples: at < SECOND ? speech(0.02) : silence(0.02) });
    }
    expect(events).toEqual([]);
  });
});
