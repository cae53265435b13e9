/** The memory of rendered sentences: used again, bounded, and never holding on to a failure. */
import { beforeEach, describe, expect, it } from 'vitest';
import type { FliteRequest } from '../../../../src/speech/web-speech/synthesis/flite';
import { cacheSentences } from '../../../../src/speech/web-speech/synthesis/cache';
import type { FakeEngine } from './synthesis-fakes';
import { fakeEngine, settle } from './synthesis-fakes';

let engine: FakeEngine;
beforeEach(() => {
  engine = fakeEngine();
});
const ask = (text: string, stretch = 1): FliteRequest => ({ voice: 'rms', text, stretch });
const texts = () => engine.asked.map(({ request }) => request.text);

describe('kept sentences', () => {
  it('are made once for each text, voice and rate', async () => {
    const cache = cacheSentences(engine);
    for (const request of [ask('One.'), ask('One.'), ask('One.', 2), { ...ask('One.'), voice: 'slt' as const }]) {
      await cache.render(request);
    }
    expect(engine.asked).toHaveLength(3);
  });

  it('two who ask at the same time share one rendering', async () => {
    engine.held = true;
    const cache = cacheSentences(engine);
    const both = [cache.render(ask('One.')), cache.render(ask('One.'))];
    engine.release();
    const [first, second] = await Promise.all(both);
    expect(first).toBe(second);
    expect(engine.asked).toHaveLength(1);
  });

  it('the least lately used go when the limit is passed', async () => {
    // Every fake sentence lasts one second.
    const cache = cacheSentences(engine, 2);
    for (const text of ['a', 'b', 'a', 'c']) await cache.render(ask(text));
    await settle();
    expect(texts()).toEqual(['a', 'b', 'c']);
    await cache.render(ask('a'));
    expect(texts()).toEqual(['a', 'b', 'c']);
    await cache.render(ask('b'));
    expect(texts()).toEqual(['a', 'b', 'c', 'b']);
  });

  it('a failure is tried again', async () => {
    engine.broken.add('One.');
    const cache = cacheSentences(engine);
    await expect(cache.render(ask('One.'))).resolves.toMatchObject({ ok: false });
    engine.broken.clear();
    await expect(cache.render(ask('One.'))).resolves.toMatchObject({ ok: true });
  });
});
