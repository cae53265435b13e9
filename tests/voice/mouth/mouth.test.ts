/** The kiosk's mouth: one thing at a time, an honest end for each, and likely lines made ready. */
import { beforeEach, describe, expect, it } from 'vitest';
import type { SpeakingPort } from '../../../src/voice/speaking';
import { createMouthOver } from '../../../src/voice/mouth';
import { speakingConformance } from '../../conformance/speaking';
import type { FakeEngine, FakeOutput } from '../../speech/web-speech/synthesis/synthesis-fakes';
import { fakeEngine, fakeOutput, settle } from '../../speech/web-speech/synthesis/synthesis-fakes';

let engine: FakeEngine;
let output: FakeOutput;
let mouth: SpeakingPort;
beforeEach(() => {
  engine = fakeEngine();
  output = fakeOutput();
  mouth = createMouthOver({ engine, output });
});

it('keeps the promises of every voice', async () => {
  const finish = async () => {
    await settle();
    await output.finish();
  };
  expect(await speakingConformance({ port: mouth, finish })).toEqual([]);
});

describe('prepare', () => {
  it('works when engine and output do', async () => {
    await expect(mouth.prepare()).resolves.toEqual({ ok: true, value: undefined });
  });

  it('names the part that does not, and can be tried again', async () => {
    output.opens = false;
    await expect(mouth.prepare()).resolves.toMatchObject({ ok: false, reason: 'noAudio' });
    engine.loads = false;
    await expect(mouth.prepare()).resolves.toMatchObject({ ok: false, reason: 'engine' });
    output.opens = engine.loads = true;
    await expect(mouth.prepare()).resolves.toMatchObject({ ok: true });
  });
});

describe('say', () => {
  it('is done when the last sentence has been heard, in the voice rms', async () => {
    let end = 'open';
    void mouth.say('One. Two.', 1).then((how) => (end = how));
    await settle();
    await output.finish();
    expect(end).toBe('open');
    await output.finish();
    expect(end).toBe('done');
    expect(new Set(engine.asked.map(({ request }) => request.voice))).toEqual(new Set(['rms']));
  });

  it('replaces what is being said', async () => {
    const first = mouth.say('First.', 1);
    await settle();
    const second = mouth.say('Second.', 1);
    await expect(first).resolves.toBe('stopped');
    await settle();
    await output.finish();
    await expect(second).resolves.toBe('done');
    expect(output.played.map(({ end }) => end)).toEqual(['stopped', 'ended']);
  });

  it('stop cuts it off, and nothing sounds afterwards', async () => {
    const saying = mouth.say('One. Two. Three.', 1);
    await settle();
    mouth.stop();
    await expect(saying).resolves.toBe('stopped');
    await settle();
    expect(output.played).toHaveLength(1);
  });

  it('stop before the first sound leaves silence', async () => {
    engine.held = true;
    const saying = mouth.say('One.', 1);
    await settle();
    mouth.stop();
    engine.release();
    await expect(saying).resolves.toBe('stopped');
    await settle();
    expect(output.played).toHaveLength(0);
  });

  it('fails when the engine does, and speaks again after', async () => {
    engine.broken.add('One.');
    await expect(mouth.say('One.', 1)).resolves.toBe('failed');
    const next = mouth.say('Two.', 1);
    await settle();
    await output.finish();
    await expect(next).resolves.toBe('done');
  });

  it('fails when the sound never ends', async () => {
    const saying = mouth.say('One.', 1);
    await settle();
    await output.finish('stuck');
    await expect(saying).resolves.toBe('failed');
  });

  it('rate 2 asks for speech half as long', async () => {
    void mouth.say('One.', 2);
    await settle();
    expect(engine.asked[0]?.request.stretch).toBe(0.5);
  });
});
