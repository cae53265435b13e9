/** Learning a voice over a recogniser that the test speaks for: these words alone, and never a command. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { refused } from '../../../src/domain/result';
import { createEarOver } from '../../../src/voice/ear';
import { loadPhraseBook } from '../../../src/voice/phrases/phrase-book';
import type { Heard, Vocabulary } from '../../../src/voice/hearing';
import type { SessionEvent } from '@stowcall/web-speech';
import { FakeService, phrasesOf, settle, utterance, wordsOf } from '../../speech/web-speech/api/fake-service';
import { accepts } from '@stowcall/web-speech/core';

const loaded = loadPhraseBook(
  ['commands.gram', 'numbers.gram', 'quantities.gram'].map((file) => ({
    file,
    text: readFileSync(`grammars/${file}`, 'utf8'),
  })),
);
if (!loaded.ok) throw new Error(loaded.detail);
const book = loaded.value;

const STAGE: Vocabulary = { commands: ['stageComplete', 'standBy'], nouns: [] };
const FEATURES = Float32Array.of(1, 2, 3);
const said = (words: string): SessionEvent[] =>
  utterance({ kind: 'heard', words }).map((event) =>
    event.kind === 'final' ? { ...event, features: FEATURES } : event,
  );

async function rig() {
  const service = new FakeService();
  const ear = createEarOver(service, book, () => 2000);
  const heard: Heard[] = [];
  ear.onHeard((one) => heard.push(one));
  await ear.prepare();
  const begin = async (words: string) => {
    const sampled = ear.sample(words);
    await settle();
    return { sampled };
  };
  return { service, ear, heard, begin };
}

describe('a sample', () => {
  it('is how the words were said, and no command', async () => {
    const { service, heard, begin } = await rig();
    const { sampled } = await begin('stage complete');
    service.tell(...said('stage complete'));
    expect(await sampled).toEqual({ ok: true, value: { words: 'stage complete', features: FEATURES } });
    expect(heard).toEqual([]);
    expect(service.opened.at(-1)?.closed).toBe(true);
  });

  it('is taken with these words alone; other commands are known, other wordings of this one are not', async () => {
    const { service, begin } = await rig();
    await begin('call inspector');
    const listened = service.opened.at(-1)?.listened;
    expect(listened).toMatchObject({ lowRisk: null, isSampled: true });
    expect(phrasesOf(listened?.wanted)).toEqual(['call inspector']);
    expect(wordsOf(listened?.all)).toContain('stand');
    const all = listened?.all ?? { ways: [], accepting: [], costs: new Map() };
    expect(accepts(all, ['call', 'inspector'])).toBe(true);
    expect(accepts(all, ['call', 'the', 'inspector'])).toBe(false);
  });

  it('closes what was listened for, also while the microphone is being opened', async () => {
    const { service, ear, heard, begin } = await rig();
    ear.listen(STAGE);
    await settle();
    const { sampled } = await begin('affirm');
    await ear.prepare();
    await settle();
    expect(service.opened).toHaveLength(2);
    service.tell(...said('stage complete'));
    expect((await sampled).ok).toBe(true);
    expect(heard).toEqual([]);
  });

  it('waits for the echo of the prompt, as any listening does', async () => {
    const { service, ear, begin } = await rig();
    ear.listen(STAGE);
    await settle();
    await begin('affirm');
    ear.hush();
    await begin('affirm');
    expect(service.opened.map(({ guardMs }) => guardMs)).toEqual([150, 0, 150]);
  });
});

describe('there is no sample', () => {
  it.each([
    ['where something else was said', { kind: 'notHeard' }, 'not-these-words'],
    ['where it could be something else', { kind: 'ambiguous', candidates: ['affirm', 'a firm'] }, 'not-these-words'],
    ['where it is too loud', { kind: 'notHeard', isTooLoud: true }, 'too-loud'],
    // No features came with it: it was not asked for by this.
    ['where it is not described', { kind: 'heard', words: 'affirm' }, 'not-these-words'],
  ] as const)('%s', async (_, verdict, reason) => {
    const { service, heard, begin } = await rig();
    const { sampled } = await begin('affirm');
    service.tell(...utterance(verdict));
    expect(await sampled).toMatchObject({ ok: false, reason });
    expect(heard).toEqual([]);
    expect(service.opened.at(-1)?.closed).toBe(true);
  });

  it.each([
    ['it is stopped', (ear: Awaited<ReturnType<typeof rig>>['ear']) => ear.stopSampling()],
    ['the kiosk speaks', (ear: Awaited<ReturnType<typeof rig>>['ear']) => ear.hush()],
    ['the kiosk listens for commands', (ear: Awaited<ReturnType<typeof rig>>['ear']) => ear.listen(STAGE)],
    ['another one is begun', (ear: Awaited<ReturnType<typeof rig>>['ear']) => void ear.sample('negative')],
  ])('when %s', async (_, interrupt) => {
    const { service, ear, begin } = await rig();
    const { sampled } = await begin('affirm');
    interrupt(ear);
    expect(await sampled).toMatchObject({ ok: false, reason: 'stopped' });
    expect(service.opened[0]?.closed).toBe(true);
  });

  it('when it is stopped before the microphone is open', async () => {
    const { service, ear } = await rig();
    const sampled = ear.sample('affirm');
    ear.stopSampling();
    expect(await sampled).toMatchObject({ ok: false, reason: 'stopped' });
    await settle();
    expect(service.opened).toEqual([]);
  });

  it.each([
    ['microphone is not allowed', 'denied'],
    ['model is missing', 'model'],
  ] as const)('where the %s', async (_, reason) => {
    const service = new FakeService();
    service.answer = refused(reason, 'no');
    const ear = createEarOver(service, book, () => 0);
    expect(await ear.sample('affirm')).toMatchObject({ ok: false, reason });
  });

  it('when the microphone is unplugged meanwhile', async () => {
    const { service, begin } = await rig();
    const { sampled } = await begin('affirm');
    service.trouble('unplugged', 'gone');
    expect(await sampled).toMatchObject({ ok: false, reason: 'unplugged' });
  });

  it('of words that the recogniser cannot pronounce, or of none', async () => {
    const { service, begin, ear } = await rig();
    const { sampled } = await begin('flumph');
    service.tell({ kind: 'refused', reason: 'unknown-word', detail: 'no word' });
    expect(await sampled).toMatchObject({ ok: false, reason: 'engine', detail: 'no word' });
    expect(await ear.sample(' ')).toMatchObject({ ok: false, reason: 'engine' });
  });
});

it('commands are heard again after a sample, and the recogniser is told whose voice it hears', async () => {
  const { service, ear, heard, begin } = await rig();
  const { sampled } = await begin('affirm');
  service.tell(...said('affirm'));
  await sampled;
  const samples = [{ words: 'affirm', features: FEATURES }];
  ear.know(samples);
  expect(service.known).toEqual(samples);
  ear.listen(STAGE);
  await settle();
  service.tell(...utterance({ kind: 'heard', words: 'stand by' }));
  expect(heard).toMatchObject([{ kind: 'heard', command: { name: 'standBy' } }]);
});
