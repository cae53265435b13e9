/**
 * `SpeechSynthesis` of the W3C Web Speech API over the embedded engine: a queue of utterances, spoken one at a time.
 * A text is cut into sentences; while one is heard the next is made, and each begins with a `boundary` event.
 */
import type { FliteVoice } from '../synthesis/flite';
import { requestFor, speedFor } from '../synthesis/flite-request';
import type { EngineVoice, PlayEnd, Playing, SoundOutput, SynthesisEngine } from '../synthesis/engine';
import type { Sentence } from '../synthesis/sentences';
import { splitSentences, withoutTags } from '../synthesis/sentences';
import type { SynthesisErrorCode, SynthesisEventName } from './utterance';
import {
  SpeechSynthesisErrorEvent,
  SpeechSynthesisEvent,
  SpeechSynthesisUtterance,
  SpeechSynthesisVoice,
} from './utterance';
import { defineHandlers } from './web-idl';

/** The draft lets an engine refuse longer texts. */
const LONGEST_TEXT = 32_767;
/** An utterance as it was when `speak` was called: later changes do not count. */
interface Entry {
  readonly utterance: SpeechSynthesisUtterance;
  readonly text: string;
  readonly voice: FliteVoice | 'voice-unavailable' | 'language-unavailable';
  readonly rate: number;
  readonly pitch: number;
  readonly volume: number;
  begunAt: number | null;
  charIndex: number;
  charLength: number;
  canceled: boolean;
}

/** An utterance belongs to the first that speaks it. */
const OWNERS = new WeakMap<SpeechSynthesisUtterance, SpeechSynthesis>();

export class SpeechSynthesis extends EventTarget {
  /** The voices are part of the page and never change, so it is never called. */
  declare onvoiceschanged: ((event: Event) => void) | null;
  static {
    defineHandlers(this, ['voiceschanged']);
  }

  readonly #engine: SynthesisEngine;
  readonly #output: SoundOutput;
  readonly #names = new Map<SpeechSynthesisVoice, EngineVoice>();
  #queue: Entry[] = [];
  /** Whether sound is held; what a page is told of it comes a little later. */
  #held = false;
  #paused = false;
  #running = false;
  #playing: Playing | null = null;
  #wake: () => void = () => undefined;

  /** The first of `voices` is the default. They are part of the page, so the list never changes after this. */
  constructor(parts: {
    readonly engine: SynthesisEngine;
    readonly output: SoundOutput;
    readonly voices: readonly EngineVoice[];
  }) {
    super();
    this.#engine = parts.engine;
    this.#output = parts.output;
    parts.voices.forEach((voice, index) => {
      this.#names.set(new SpeechSynthesisVoice({ ...voice, default: index === 0 }), voice);
    });
  }

  /** True while an utterance waits that has not begun. */
  get pending(): boolean {
    return this.#queue.some(({ begunAt }) => begunAt === null);
  }

  /** True while an utterance has begun and not ended, paused or not. */
  get speaking(): boolean {
    return this.#queue.some(({ begunAt }) => begunAt !== null);
  }

  get paused(): boolean {
    return this.#paused;
  }

  getVoices(): SpeechSynthesisVoice[] {
    return [...this.#names.keys()];
  }

  /**
   * Adds an utterance to the queue; it ends in exactly one `end` or `error` event. Throws `InvalidStateError` for one
   * that was given to another voice.
   */
  speak(utterance: SpeechSynthesisUtterance): void {
    if (!(utterance instanceof SpeechSynthesisUtterance)) throw new TypeError('This is no utterance.');
    if ((OWNERS.get(utterance) ?? this) !== this) {
      throw new DOMException('This utterance is spoken by another.', 'InvalidStateError');
    }
    OWNERS.set(utterance, this);
    const { rate, pitch, volume } = utterance;
    const text = withoutTags(utterance.text);
    const voice = this.#voiceFor(utterance);
    const place = { begunAt: null, charIndex: 0, charLength: 0, canceled: false };
    this.#queue.push({ utterance, text, voice, rate, pitch, volume, ...place });
    void this.#run();
  }

  /** Empties the queue. The paused state stays as it is. */
  cancel(): void {
    const entries = this.#queue;
    this.#queue = [];
    for (const entry of entries) {
      entry.canceled = true;
      this.#fail(entry, entry.begunAt === null ? 'canceled' : 'interrupted');
    }
    this.#playing?.stop();
    this.#wake();
  }

  pause(): void {
    if (this.#held) return;
    this.#held = true;
    this.#playing?.pause();
    this.#tellPaused(true);
  }

  resume(): void {
    if (!this.#held) return;
    this.#held = false;
    this.#playing?.resume();
    this.#tellPaused(false);
    this.#wake();
  }

  /** `paused` changes when its event is told and no sooner, so that a page sees the two together. */
  #tellPaused(paused: boolean): void {
    queueMicrotask(() => {
      this.#paused = paused;
      const current = this.#queue[0];
      if (current !== undefined && current.begunAt !== null) this.#fire(current, paused ? 'pause' : 'resume');
    });
  }

  #voiceFor({ voice, lang }: SpeechSynthesisUtterance): Entry['voice'] {
    if (voice !== null) return this.#names.get(voice)?.name ?? 'voice-unavailable';
    const wanted = lang.toLowerCase().replace('_', '-');
    const voices = [...this.#names.values()];
    const exact = voices.find((candidate) => wanted === '' || candidate.lang.toLowerCase() === wanted);
    const near = voices.find((candidate) => candidate.lang.toLowerCase().split('-')[0] === wanted.split('-')[0]);
    return (exact ?? near)?.name ?? 'language-unavailable';
  }

  async #run(): Promise<void> {
    if (this.#running) return;
    this.#running = true;
    for (let entry = this.#queue[0]; entry !== undefined; entry = this.#queue[0]) {
      const error = await this.#speakEntry(entry);
      // A cancelled entry has left the queue and has had its event.
      if (entry.canceled) continue;
      this.#queue.shift();
      if (error === null) this.#fire(entry, 'end');
      else this.#fail(entry, error);
    }
    this.#running = false;
  }

  async #speakEntry(entry: Entry): Promise<SynthesisErrorCode | null> {
    const { voice, text } = entry;
    if (voice === 'voice-unavailable' || voice === 'language-unavailable') return voice;
    if (text.length > LONGEST_TEXT) return 'text-too-long';
    const sentences = splitSentences(text);
    const render = (sentence: Sentence) =>
      this.#engine.render(requestFor(sentence.text, { voice, rate: entry.rate, pitch: entry.pitch }));
    let next = sentences[0] === undefined ? null : render(sentences[0]);
    for (const [index, sentence] of sentences.entries()) {
      const rendered = next === null ? null : await next;
      const following = sentences[index + 1];
      next = following === undefined || entry.canceled ? null : render(following);
      if (rendered?.ok === false && rendered.reason === 'nothing-to-say') continue;
      if (!rendered?.ok) return 'synthesis-failed';
      await this.#unpaused(entry);
      if (entry.canceled) return null;
      this.#playing = this.#output.play(rendered.value, { volume: entry.volume, speed: speedFor(entry.pitch) });
      this.#begin(entry, sentence);
      const end = await this.#playing.done;
      this.#playing = null;
      if (end !== 'ended') return ERROR_OF[end];
    }
    await this.#unpaused(entry);
    if (entry.begunAt === null && !entry.canceled) this.#begin(entry, null);
    return null;
  }

  /** Resolves when nothing is paused, or when there is nothing left to wait for. */
  async #unpaused(entry: Entry): Promise<void> {
    while (this.#held && !entry.canceled) await new Promise<void>((resolve) => (this.#wake = resolve));
  }

  #begin(entry: Entry, sentence: Sentence | null): void {
    entry.charIndex = sentence?.charIndex ?? 0;
    entry.charLength = sentence?.text.length ?? 0;
    if (entry.begunAt === null) {
      entry.begunAt = this.#output.time;
      this.#fire(entry, 'start');
    }
    if (sentence !== null && !entry.canceled) this.#fire(entry, 'boundary');
  }

  #fire(entry: Entry, type: SynthesisEventName): void {
    const detail = this.#detail(entry, type === 'boundary' ? 'sentence' : '');
    entry.utterance.dispatchEvent(new SpeechSynthesisEvent(type, detail));
  }

  #fail(entry: Entry, error: SynthesisErrorCode): void {
    entry.utterance.dispatchEvent(new SpeechSynthesisErrorEvent('error', { ...this.#detail(entry, ''), error }));
  }

  #detail(entry: Entry, name: string) {
    const { utterance, charIndex, charLength, begunAt } = entry;
    const elapsedTime = begunAt === null ? 0 : Math.max(0, this.#output.time - begunAt);
    return { utterance, charIndex, charLength, elapsedTime, name };
  }
}

const ERROR_OF: Readonly<Record<Exclude<PlayEnd, 'ended'>, SynthesisErrorCode>> = {
  stopped: 'interrupted',
  stuck: 'audio-hardware',
  blocked: 'not-allowed',
};
