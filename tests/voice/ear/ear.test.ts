/** The ear over a recogniser that the test speaks for: only legal commands are heard, and only while it is open. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { refused } from '../../../src/domain/result';
import { createEarOver } from '../../../src/voice/ear';
import { loadPhraseBook } from '../../../src/voice/phrases/phrase-book';
import type { Heard, Vocabulary } from '../../../src/voice/hearing';
import { othersOf } from '../../../src/voice/phrases/near-words';
import { FakeService, settle, utterance, wordsOf } from '../../speech/web-speech/api/fake-service';

const loaded = loadPhraseBook(
  ['commands.gram', 'numbers.gram', 'quantities.gram'].map((file) => ({
    file,
    text: readFileSync(`grammars/${file}`, 'utf8'),
  })),
);
if (!loaded.ok) throw new Error(loaded.detail);
const book = loaded.value;

const STAGE: Vocabulary = { commands: ['stageComplete', 'standBy', 'measured'], nouns: [] };
const match = (words: string) => ({ kind: 'heard', words }) as const;

async function rig() {
  const service = new FakeService();
  const ear = createEarOver(service, book, () => 2000);
  const heard: Heard[] = [];
  const troubles: string[] = [];
  ear.onHeard((one) => heard.push(one));
  ear.onTrouble((trouble) => troubles.push(trouble));
  await ear.prepare();
  const listen = async (vocabulary: Vocabulary): Promise<void> => {
    ear.listen(vocabulary);
    await settle();
  };
  return { service, ear, heard, troubles, listen };
}

describe('hearing', () => {
  it('a legal command, with the time that deciding took beyond the pause', async () => {
    const { service, heard, listen } = await rig();
    await listen(STAGE);
    service.tell(...utterance(match('stage complete'), 1300));
    expect(heard).toEqual([
      { kind: 'heard', command: { name: 'stageComplete' }, words: 'stage complete', msToDecision: 2000 - 1300 - 450 },
    ]);
  });

  it('one command after another', async () => {
    const { service, heard, listen } = await rig();
    await listen(STAGE);
    service.tell(...utterance(match('stand by')), ...utterance(match('stage complete')));
    expect(heard.map((one) => one.kind === 'heard' && one.command.name)).toEqual(['standBy', 'stageComplete']);
  });

  it('what is none of them is not heard', async () => {
    const { service, heard, listen } = await rig();
    await listen(STAGE);
    service.tell(...utterance({ kind: 'notHeard' }));
    expect(heard).toEqual([{ kind: 'notHeard' }]);
  });

  it('says where the room was too loud to be sure', async () => {
    const { service, heard, listen } = await rig();
    await listen(STAGE);
    service.tell(...utterance({ kind: 'notHeard', isTooLoud: true }));
    expect(heard).toEqual([{ kind: 'notHeard', isTooLoud: true }]);
  });

  it('words that mean no legal command are not heard, should the engine ever find them', async () => {
    const { service, heard, listen } = await rig();
    await listen(STAGE);
    service.tell(...utterance(match('release the hold')));
    expect(heard).toEqual([{ kind: 'notHeard' }]);
  });

  it('two near readings become a question', async () => {
    const { service, heard, listen } = await rig();
    await listen(STAGE);
    service.tell(...utterance({ kind: 'ambiguous', candidates: ['three seven inches', 'forty one inches'] }));
    expect(heard).toEqual([{ kind: 'ambiguous', candidates: ['three seven inches', 'forty one inches'] }]);
  });

  it('two wordings of one command do not', async () => {
    const { service, heard, listen } = await rig();
    await listen(STAGE);
    service.tell(
      ...utterance({ kind: 'ambiguous', candidates: ['measured three seven inches', 'thirty seven inches'] }),
    );
    expect(heard).toMatchObject([{ kind: 'heard', command: { name: 'measured', value: 37, unit: 'in' } }]);
  });

  it('the recogniser is given the legal commands and no other', async () => {
    const { service, listen } = await rig();
    await listen({ commands: ['affirm', 'negative'], nouns: [] });
    const { wanted, all } = service.opened.at(-1)?.listened ?? {};
    expect(wordsOf(wanted)).toContain('affirm');
    expect(wordsOf(wanted)).not.toContain('complete');
    // The others are known, so that they are not taken for those.
    expect(wordsOf(all)).toContain('complete');
    expect(wordsOf(all)).toContain('tools');
    expect(othersOf({ commands: ['affirm', 'negative'], nouns: [] }).commands).not.toContain('affirm');
  });

  it('the recogniser is told of longer numbers where numbers are legal, and only there', async () => {
    const { service, listen } = await rig();
    await listen({ commands: ['count', 'standBy'], nouns: ['stows'] });
    expect(wordsOf(service.opened.at(-1)?.listened.rivals)).toContain('thousand');
    await listen({ commands: ['affirm', 'negative'], nouns: [] });
    expect(service.opened.at(-1)?.listened.rivals).toBeNull();
  });

  it('the recogniser is told which of them do little harm', async () => {
    const { service, listen } = await rig();
    await listen({ commands: ['stageComplete', 'sayAgain'], nouns: [] });
    const { lowRisk } = service.opened.at(-1)?.listened ?? {};
    expect(wordsOf(lowRisk)).toContain('again');
    expect(wordsOf(lowRisk)).not.toContain('complete');
    await listen({ commands: ['affirm', 'negative'], nouns: [] });
    expect(service.opened.at(-1)?.listened.lowRisk).toBeNull();
  });

  it('of a long session each command is told without the blank before it', async () => {
    const { service, heard, listen } = await rig();
    await listen(STAGE);
    service.tell(...utterance(match('stand by')), ...utterance(match('stand by')));
    expect(heard.map((one) => (one.kind === 'heard' ? one.words : one.kind))).toEqual(['stand by', 'stand by']);
  });
});

describe('turns', () => {
  it('nothing is heard before listen, nor after hush', async () => {
    const { service, ear, heard, listen } = await rig();
    service.tell(...utterance(match('stage complete')));
    await listen(STAGE);
    ear.hush();
    service.tell(...utterance(match('stage complete')));
    expect(heard).toEqual([]);
    expect(service.opened.every(({ closed }) => closed)).toBe(true);
  });

  it('after hush the room’s echo is let die away; between two vocabularies nothing is lost', async () => {
    const { service, ear, listen } = await rig();
    await listen(STAGE);
    await listen({ commands: ['affirm'], nouns: [] });
    ear.hush();
    await listen(STAGE);
    expect(service.opened.map(({ guardMs }) => guardMs)).toEqual([150, 0, 150]);
  });

  it('hush before the microphone answers leaves the ear closed', async () => {
    const service = new FakeService();
    const ear = createEarOver(service, book, () => 2000);
    const heard: Heard[] = [];
    ear.onHeard((one) => heard.push(one));
    const prepared = ear.prepare();
    ear.listen(STAGE);
    ear.hush();
    await prepared;
    await settle();
    service.tell(...utterance(match('stage complete')));
    expect(service.opened).toEqual([]);
    expect(heard).toEqual([]);
  });

  it('what was begun under one vocabulary is not heard under the next', async () => {
    const { service, heard, listen } = await rig();
    await listen(STAGE);
    const begun = utterance(match('stage complete'));
    service.tell(...begun.slice(0, 3));
    await listen({ commands: ['affirm'], nouns: [] });
    expect(service.opened[0]?.closed).toBe(true);
    expect(heard).toEqual([]);
  });
});

describe('trouble', () => {
  it('at the start is the answer of prepare', async () => {
    const service = new FakeService();
    service.answer = refused('denied', 'not allowed');
    expect(await createEarOver(service, book, () => 0).prepare()).toMatchObject({ ok: false, reason: 'denied' });
  });

  it('later is told; once mended, the ear listens for what was wanted', async () => {
    const { service, ear, troubles, heard, listen } = await rig();
    await listen(STAGE);
    service.trouble('unplugged', 'gone');
    expect(troubles).toEqual(['unplugged']);
    ear.listen({ commands: ['affirm'], nouns: [] });
    await ear.prepare();
    await settle();
    service.tell(...utterance(match('affirm')));
    expect(heard).toMatchObject([{ kind: 'heard', command: { name: 'affirm' } }]);
  });

  it('a grammar that the engine does not take is told, and nothing is heard', async () => {
    const { service, troubles, heard, listen } = await rig();
    await listen(STAGE);
    service.tell({ kind: 'refused', reason: 'unknown-word', detail: 'no word' });
    service.tell(...utterance(match('stage complete')));
    expect(troubles).toEqual(['engine']);
    expect(heard).toEqual([]);
  });

  it('listeners that were removed hear no more', async () => {
    const { service, ear, listen } = await rig();
    const heard: unknown[] = [];
    const forgets = [ear.onHeard((one) => heard.push(one)), ear.onLevel((level) => heard.push(level))];
    await listen(STAGE);
    for (const forget of forgets) forget();
    service.tell(...utterance(match('stage complete')));
    service.level(1);
    expect(heard).toEqual([]);
  });
});
