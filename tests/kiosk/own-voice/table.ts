/**
 * A packing table in a room that echoes: the kiosk's own turn-taking, ear and recogniser, with its voice from a
 * loudspeaker in the same room as its microphone. Time is the position in the stream of sound.
 */
import createModule from 'soundswallower';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from '../../../src/domain/command';
import { ok } from '../../../src/domain/result';
import { createConversation } from '../../../src/kiosk/conversation';
import { createEarOver } from '../../../src/voice/ear';
import type { PhraseBook } from '../../../src/voice/phrases/phrase-book';
import type { Vocabulary } from '../../../src/voice/hearing';
import { parsePronunciations } from '@stowcall/grammar';
import { createRecognitionService } from '@stowcall/web-speech';
import type { Block } from '@stowcall/web-speech/core';
import type { FromWorker, RecogniserCalls, WorkerLike } from '@stowcall/web-speech/worker';
import { answering, recogniserAnswers } from '@stowcall/web-speech/worker';
import { hiss } from '../../audio/hiss';

export const RATE = 16_000;
const BLOCK = 320;
/** Root mean square of the room's own noise: 50 dB below full scale. */
const ROOM = 0.003;
/** From the moment that the voice says it is done to its last sample at the microphone: loudspeaker, air and capture. */
const LATE = Math.round(0.06 * RATE);

/** A bare room: sound comes back for 0.3 s, 20 dB softer at the end of it. */
const ECHOES: readonly (readonly [at: number, gain: number])[] = Array.from({ length: 30 }, (_, index) => {
  const seconds = 0.3 * ((index + 1) / 30) ** 1.3;
  return [Math.round(seconds * RATE), 0.35 * 10 ** (-seconds / 0.3) * (index % 3 === 1 ? -1 : 1)];
});

/** The sound with its echoes, 0.3 s longer. */
export function echoing(sound: Float32Array): Float32Array {
  const out = new Float32Array(sound.length + Math.ceil(0.3 * RATE));
  out.set(sound);
  for (const [at, gain] of ECHOES) {
    for (let index = 0; index < sound.length; index += 1) {
      out[at + index] = (out[at + index] ?? 0) + gain * (sound[index] ?? 0);
    }
  }
  return out;
}

export interface Presented {
  /** Commands that were obeyed while the kiosk spoke, and from then on. */
  readonly during: readonly Command[];
  readonly after: readonly Command[];
}

interface Playing {
  /** As it arrives at the microphone. */
  readonly sound: Float32Array;
  readonly from: number;
  /** When the mouth says that it is done. */
  readonly end: number;
  readonly done: () => void;
}

export class EchoingTable {
  /** Seconds by which the loudspeaker is later than the mouth says, and for which the ear stays shut after it. */
  late = 0;
  guard = 0;
  #waiting: { readonly until: number; readonly done: () => void }[] = [];
  #position = 0;
  #port: MessagePort | null = null;
  #playing: Playing | null = null;
  #spoken: Float32Array = new Float32Array();
  #others: { readonly sound: Float32Array; readonly from: number }[] = [];
  #commands: Command[] = [];
  #prompts = 0;
  #noise = hiss(ROOM, 10 * RATE, 5);
  readonly #phraseBook: PhraseBook;
  #present: ((text: string, vocabulary: Vocabulary) => void) | null = null;

  constructor(phraseBook: PhraseBook) {
    this.#phraseBook = phraseBook;
  }

  /** Loads the engine from the project at `root`. */
  async prepare(root: string): Promise<void> {
    const pronunciations = parsePronunciations(readFileSync(join(root, 'grammars/pronunciations.txt'), 'utf8'));
    if (!pronunciations.ok) throw new Error(pronunciations.detail);
    const service = createRecognitionService({
      wasm: '',
      model: join(root, '.stowcall/model/en-us-16k'),
      pronunciations: pronunciations.value,
      makeWorker: () => this.#worker(),
      openMicrophone: () => Promise.resolve(ok({ position: () => this.#position, close: () => undefined })),
      now: () => (this.#position * 1000) / RATE,
    });
    const ear = createEarOver(service, this.#phraseBook, () => (this.#position * 1000) / RATE);
    const prepared = await ear.prepare();
    if (!prepared.ok) throw new Error(prepared.detail);
    const talk = createConversation({
      ear,
      mouth: {
        prepare: () => Promise.resolve(ok(undefined)),
        say: () => this.#say(),
        stop: () => undefined,
      },
      heardOut: () =>
        new Promise((done) => {
          this.#waiting.push({ until: this.#position + Math.round(this.guard * RATE), done });
        }),
      onCommand: ({ command }) => this.#commands.push(command),
      onState: () => undefined,
    });
    this.#present = (text, vocabulary) => {
      this.#prompts += 1;
      talk.present({ key: String(this.#prompts), say: text, show: text }, vocabulary, 1);
    };
  }

  /**
   * The kiosk says `voice` (as it arrives at the microphone, without echoes), and listens for `seconds` after it. A
   * person may speak at the same time, or after it: `person.after` seconds from the beginning or the end.
   */
  async present(
    said: { readonly text: string; readonly vocabulary: Vocabulary; readonly voice: Float32Array },
    seconds: number,
    person: { readonly sound: Float32Array; readonly from: 'beginning' | 'end'; readonly after: number } | null = null,
  ): Promise<Presented> {
    this.#commands = [];
    this.#spoken = said.voice;
    this.#present?.(said.text, said.vocabulary);
    const end = this.#position + said.voice.length;
    if (person !== null) {
      const from = (person.from === 'end' ? end : this.#position) + Math.round(person.after * RATE);
      this.#others.push({ sound: person.sound, from });
    }
    await this.#run(said.voice.length);
    const during = this.#commands;
    this.#commands = [];
    await this.#run(Math.round(seconds * RATE));
    this.#others = [];
    return { during, after: this.#commands };
  }

  /** The room alone, so that the ear knows it. */
  async wait(seconds: number): Promise<void> {
    await this.#run(Math.round(seconds * RATE));
  }

  #worker(): WorkerLike {
    const worker: WorkerLike = {
      onmessage: null,
      onerror: null,
      terminate: () => undefined,
      postMessage: (message) => {
        if (message.name === 'sound') {
          // Sound is handed over at once, so that nothing depends on the machine's speed.
          (message.request as MessagePort).close();
          this.#port = { close: () => undefined, onmessage: null } as unknown as MessagePort;
          void take({ ...message, request: this.#port });
        } else void take(message);
      },
    };
    const post = (data: FromWorker): void => worker.onmessage?.({ data } as MessageEvent<FromWorker>);
    const answers = recogniserAnswers(
      // In Node the package finds its own engine.
      (settings) => {
        const own = { ...settings };
        delete own.locateFile;
        return createModule(own);
      },
      (event) => post({ kind: 'event', event }),
    );
    const take = answering<RecogniserCalls>(answers, post);
    return worker;
  }

  #say(): Promise<'done'> {
    const from = this.#position;
    const spoken = this.#spoken;
    // What it asks of itself later, as that it has not heard, is silent here.
    this.#spoken = new Float32Array();
    return new Promise((resolve) => {
      this.#playing = {
        sound: echoing(spoken),
        from: from + LATE + Math.round(this.late * RATE),
        end: from + spoken.length,
        done: () => resolve('done'),
      };
    });
  }

  async #run(samples: number): Promise<void> {
    for (const end = this.#position + samples; this.#position < end;) {
      this.#port?.onmessage?.({ data: this.#next() } as MessageEvent<Block>);
      const { done, end: spoken } = this.#playing ?? { done: null, end: 0 };
      if (done !== null && this.#position >= spoken) done();
      for (const one of this.#waiting.filter(({ until }) => this.#position >= until)) one.done();
      this.#waiting = this.#waiting.filter(({ until }) => this.#position < until);
      // What the answer sets going is settled before the next block.
      for (let turn = 0; turn < 12; turn += 1) await Promise.resolve();
    }
  }

  /** What the microphone takes in: the room, the kiosk's voice with its echoes, and people. */
  #next(): Block {
    const at = this.#position;
    const samples = Float32Array.from({ length: BLOCK }, (_, index) => {
      let sample = this.#noise[(at + index) % this.#noise.length] ?? 0;
      for (const { sound, from } of [...(this.#playing === null ? [] : [this.#playing]), ...this.#others]) {
        sample += sound[at + index - from] ?? 0;
      }
      return sample;
    });
    this.#position += BLOCK;
    return { at, samples };
  }
}
