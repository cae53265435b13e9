/**
 * The kiosk's own voice in its own ear, with the real engine: no command is obeyed while it speaks, nor of its echo.
 * Needs the 16 kHz acoustic model (`node src/tools/fetch-model.mjs`); skipped without it. A sample of all prompts is
 * said; all of them with STOWCALL_OWN_VOICE=whole, and what an ear that was open all the time would have made of them.
 */
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { BENCH_VOCABULARIES } from '../../bench/recogniser';
import { openKioskEar } from '../../audio/kiosk-ear';
import { readPhraseBook } from '../../../src/tools/commands/read-phrases';
import type { FliteVoice } from '@stowcall/web-speech/flite';
import { requestFor, splitSentences } from '@stowcall/web-speech/flite';
import type { Vocabulary } from '../../../src/voice/hearing';
import { renderVoice } from '../../audio/render-voice';
import type { Said } from './prompts';
import { allPrompts } from './prompts';
import { echoing, EchoingTable, RATE } from './table';

const ROOT = resolve(import.meta.dirname, '../../..');
const isModelThere = existsSync(join(ROOT, '.stowcall/model/en-us-16k/mdef'));
if (!isModelThere) console.log('The 16 kHz model is not there: the kiosk does not hear itself in this run.');
const IS_WHOLE = process.env['STOWCALL_OWN_VOICE'] === 'whole';
/** Loudness of the kiosk's voice at the microphone over that of a person, in dB. */
const LOUDNESS = [0, -6, -12];
const SAMPLE = 10;
/** Time after the last word in which an echo could still be heard as something. */
const AFTER = 1.2;

const prompts = allPrompts().filter(({ text }) => /[a-z]/i.test(text));
const some = IS_WHOLE ? prompts : prompts.filter((_, index) => index % Math.ceil(prompts.length / SAMPLE) === 0);

/** Seconds. */
const DELAYS = [0, 0.25, 0.5, 1, 1.5, 2];
const allReadBacks = prompts.filter(({ text }) => text.endsWith('Is that right?') && text.length < 90);
const readBacks = allReadBacks.filter((_, index) => IS_WHOLE || index % Math.ceil(allReadBacks.length / 8) === 0);

/** Root mean square of the loudest 128 ms. */
function loudest(sound: Float32Array): number {
  let most = 0;
  for (let at = 0; at + 2048 <= sound.length; at += 2048) {
    most = Math.max(most, Math.hypot(...sound.subarray(at, at + 2048)) / Math.sqrt(2048));
  }
  return most;
}

const spoken = new Map<string, Float32Array>();

/** The kiosk's voice, sentence by sentence as the page makes it. */
async function spokenBy(text: string): Promise<Float32Array> {
  const known = spoken.get(text);
  if (known !== undefined) return known;
  const pieces: Float32Array[] = [];
  for (const sentence of splitSentences(text)) {
    const { voice, text: words, stretch } = requestFor(sentence.text, { voice: 'rms', rate: 1, pitch: 1 });
    if (/[a-z0-9]/i.test(words)) pieces.push((await renderVoice(voice, words, { stretch })).samples);
  }
  const sound = new Float32Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    sound.set(piece, at);
    at += piece.length;
  }
  spoken.set(text, sound);
  return sound;
}

/** The same, this much louder than a person who speaks. */
async function voiceOf(text: string, decibels: number): Promise<Float32Array> {
  const sound = await spokenBy(text);
  const person = await spokenAs('slt', 'Stage complete.');
  const gain = (loudest(person) / loudest(sound)) * 10 ** (decibels / 20);
  return sound.map((sample) => sample * gain);
}

async function spokenAs(voice: FliteVoice, text: string): Promise<Float32Array> {
  return (await renderVoice(voice, text)).samples;
}

describe.skipIf(!isModelThere)('the kiosk at a table that echoes', () => {
  const table = new EchoingTable(readPhraseBook(ROOT));
  beforeAll(async () => {
    await table.prepare(ROOT);
    await table.wait(1);
  });
  const person = (text: string): Promise<Float32Array> => spokenAs('slt', text);
  const say = async (text: string, vocabulary: Vocabulary, decibels = 0) => ({
    text,
    vocabulary,
    voice: await voiceOf(text, decibels),
  });
  const { stowing = { commands: [], nouns: [] }, readBack = { commands: [], nouns: [] } } = BENCH_VOCABULARIES;

  it('hears a person who answers, so that the rest of these tests says something', async () => {
    const sound = await person('Five stows.');
    const heard = await table.present(await say('Say the number and the word stows.', stowing), 2.5, {
      sound,
      from: 'end',
      after: 0.5,
    });
    expect(heard).toEqual({ during: [], after: [{ name: 'count', count: 5, noun: 'stows' }] });
  });

  it.each(LOUDNESS)('obeys none of what it says itself, %d dB over a person, nor its echo', async (decibels) => {
    const obeyed: string[] = [];
    for (const { text, vocabulary } of some) {
      const heard = await table.present(await say(text, vocabulary, decibels), AFTER);
      if (heard.during.length + heard.after.length > 0) obeyed.push(`${text}: ${JSON.stringify(heard)}`);
    }
    if (IS_WHOLE) console.log(`${decibels} dB: ${some.length} prompts, ${obeyed.length} obeyed`);
    expect(obeyed).toEqual([]);
  });

  describe.each(DELAYS)('from a loudspeaker that is %d s late', (late) => {
    const spokenNow = IS_WHOLE ? prompts : readBacks;
    const obeyedWith = async (texts: readonly Said[], guard: number): Promise<readonly string[]> => {
      table.late = late;
      table.guard = guard;
      const obeyed: string[] = [];
      for (const { text, vocabulary } of texts) {
        const heard = await table.present(await say(text, vocabulary), late + AFTER);
        if (heard.during.length + heard.after.length > 0) obeyed.push(`${text}: ${JSON.stringify(heard)}`);
      }
      table.late = 0;
      table.guard = 0;
      await table.wait(late + 1);
      return obeyed;
    };

    it('obeys none of its prompts, the delay being known', async () => {
      expect(await obeyedWith(spokenNow, late)).toEqual([]);
    });

    it('obeys no read-back, the delay not being known', async () => {
      expect(await obeyedWith(readBacks, 0)).toEqual([]);
    });
  });

  it('would affirm what it reads back if that ended in "Affirm?" and nobody knew that it is heard a second late', async () => {
    table.late = 1;
    const obeyed: string[] = [];
    for (const { text } of readBacks) {
      const heard = await table.present(await say(text.replace('Is that right?', 'Affirm?'), readBack), 1 + AFTER);
      if (heard.after.some(({ name }) => name === 'affirm')) obeyed.push(text);
    }
    table.late = 0;
    await table.wait(2);
    console.log(`"Affirm?" a second late: ${String(obeyed.length)} of ${String(readBacks.length)} affirmed`);
    expect(obeyed.length).toBeGreaterThan(0);
  });

  it('obeys nothing of its own that is a command word for word', async () => {
    for (const text of ['Stow.', 'Five stows.', 'What remains?', 'Stand by.', 'Say again.']) {
      expect([text, await table.present(await say(text, stowing), AFTER)]).toEqual([text, { during: [], after: [] }]);
    }
    for (const text of ['Affirm.', 'Negative.', 'Stand by.']) {
      expect([text, await table.present(await say(text, readBack), AFTER)]).toEqual([text, { during: [], after: [] }]);
    }
  });

  it.each(['Affirm.', 'Stand by.', 'Say again.'])('obeys no person who says "%s" while it speaks', async (text) => {
    const prompt = await say('Fourteen stows. Affirm, or say it again.', readBack);
    const heard = await table.present(prompt, AFTER, { sound: await person(text), from: 'beginning', after: 0.3 });
    expect(heard).toEqual({ during: [], after: [] });
  });

  it.each([
    ['Thirty four stows.', stowing],
    ['Twenty five stows.', stowing],
    ['One more stow.', stowing],
  ])('does not take the end of "%s" for the whole where it began while the kiosk spoke', async (text, vocabulary) => {
    const sound = await person(text);
    // The person's words begin 0.2 s into the sound.
    for (const after of [-0.5, -0.4, -0.3, -0.2]) {
      const heard = await table.present(await say('Next, left.', vocabulary), 2, { sound, from: 'end', after });
      expect([after, heard]).toEqual([after, { during: [], after: [] }]);
    }
  });
});

describe.skipIf(!isModelThere || !IS_WHOLE)('an ear that is open while the kiosk speaks', () => {
  it('is counted: this is why it is closed', async () => {
    const ear = await openKioskEar(ROOT);
    const standBy: Vocabulary = { commands: ['standBy'], nouns: [] };
    const counts = { prompts: 0, seconds: 0, legal: 0, standBy: 0 };
    const examples: string[] = [];
    for (const decibels of LOUDNESS) {
      for (const { text, vocabulary } of prompts.filter((_, index) => index % 16 === 0)) {
        const sound = echoing(await voiceOf(text, decibels));
        const obeyedOf = (wanted: Vocabulary): readonly string[] =>
          ear.hear(wanted, sound).heard.flatMap((one) => (one.kind === 'heard' ? [one.words] : []));
        counts.prompts += 1;
        counts.seconds += sound.length / RATE;
        const taken = vocabulary.commands.length === 0 ? [] : obeyedOf(vocabulary);
        if (taken.length > 0) counts.legal += 1;
        if (taken.length > 0 && examples.length < 8) examples.push(`${text} -> ${taken.join(', ')}`);
        if (obeyedOf(standBy).length > 0) counts.standBy += 1;
      }
    }
    ear.dispose();
    console.log(JSON.stringify({ counts, examples }, null, 1));
    expect(counts.prompts).toBeGreaterThan(50);
  });
});
