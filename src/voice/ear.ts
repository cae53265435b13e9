/** The ear: the recogniser behind the hearing port. What may be said comes from the phrase book, and nothing else is heard. */
import pronunciationsText from '../../grammars/pronunciations.txt?raw';
import { assert } from '../domain/assert';
import { COMMAND_NAMES } from '../domain/command';
import { listeners } from '../domain/listeners';
import { COUNT_NOUNS } from '../domain/procedure';
import type { Result } from '../domain/result';
import { ok, refused } from '../domain/result';
import { normalised } from './phrases/phrase-for';
import type { PhraseBook } from './phrases/phrase-book';
import { heardFrom } from './phrases/heard';
import type { EnrollingPort, SampleTrouble } from './enrolling';
import type { Heard, HearingPort, HearingTrouble, Vocabulary } from './hearing';
import { listenForCommands, listenForLine } from './phrases/listen-for';
import { othersOf } from './phrases/near-words';
import { openMicrophone } from '@stowcall/web-speech/microphone';
import type { Sampling } from './sampling';
import { takeSample } from './sampling';
import type { RecognitionService, Session, SessionEvent } from '@stowcall/web-speech';
import { createRecognitionService, makeRecogniserWorker } from '@stowcall/web-speech';
import type { VoiceSample } from '@stowcall/web-speech/core';
import { PAUSE_MS } from '@stowcall/web-speech/core';
import { parsePronunciations } from '@stowcall/grammar';
import type { Pronunciation } from '@stowcall/grammar';

export interface EarOptions {
  readonly phraseBook: PhraseBook;
  /** Addresses of the folders of engine and model on this page's own origin, with a slash at their end. */
  readonly engineBase: string;
  readonly modelBase: string;
}

/** After the kiosk has spoken, the room still sounds of it for this long. */
const REVERBERATION_MS = 150;

/** An ear that can also learn how somebody speaks. */
export type LearningEar = HearingPort & EnrollingPort;

/** What the recogniser's dictionary lacks. The list is part of the page, so a broken line is a defect of ours. */
function ownPronunciations(): readonly Pronunciation[] {
  const read = parsePronunciations(pronunciationsText);
  assert(read.ok, read.ok ? 'the pronunciations can be read' : read.detail);
  return read.value;
}

/** The kiosk's ear, not yet prepared. */
export function createEar(options: EarOptions): LearningEar {
  const service = createRecognitionService({
    wasm: `${options.engineBase}soundswallower.web.wasm`,
    model: options.modelBase.replace(/\/$/, ''),
    pronunciations: ownPronunciations(),
    makeWorker: makeRecogniserWorker,
    openMicrophone,
    now: () => performance.now(),
  });
  return createEarOver(service, options.phraseBook, () => performance.now());
}

/** The same over any recognition service. */
export function createEarOver(service: RecognitionService, phraseBook: PhraseBook, now: () => number): LearningEar {
  return new Ear(service, phraseBook, now);
}

class Ear implements HearingPort, EnrollingPort {
  readonly #service: RecognitionService;
  readonly #phraseBook: PhraseBook;
  readonly #now: () => number;
  readonly #heard = listeners<[heard: Heard]>();
  readonly #troubles = listeners<[trouble: HearingTrouble, detail: string]>();
  #session: Session | null = null;
  #wanted: Vocabulary | null = null;
  #ready = false;
  #hushed = true;
  #sampling: Sampling | null = null;

  constructor(service: RecognitionService, phraseBook: PhraseBook, now: () => number) {
    this.#service = service;
    this.#phraseBook = phraseBook;
    this.#now = now;
    service.onTrouble((trouble, detail) => this.#trouble(trouble, detail));
  }

  async prepare(): Promise<Result<void, HearingTrouble>> {
    const prepared = await this.#service.prepare();
    this.#ready = prepared.ok;
    // What was asked for while nothing could be heard is heard from now on.
    if (this.#ready && this.#wanted !== null && this.#session === null) this.#open(this.#wanted);
    return prepared;
  }

  listen(vocabulary: Vocabulary): void {
    this.stopSampling();
    this.#wanted = vocabulary;
    if (this.#ready) this.#open(vocabulary);
  }

  hush(): void {
    this.stopSampling();
    this.#wanted = null;
    this.#hushed = true;
    this.#close();
  }

  onHeard(listener: (heard: Heard) => void): () => void {
    return this.#heard.add(listener);
  }

  onLevel(listener: (level: number) => void): () => void {
    return this.#service.onLevel(listener);
  }

  onTrouble(listener: (trouble: HearingTrouble, detail: string) => void): () => void {
    return this.#troubles.add(listener);
  }

  async sample(words: string): Promise<Result<VoiceSample, SampleTrouble>> {
    this.stopSampling();
    // Not opened again by `prepare`: what is said now is no command.
    this.#wanted = null;
    this.#close();
    const listened = listenForLine(normalised(words), this.#othersThan(words), this.#phraseBook);
    if (!listened.ok) return refused('engine', listened.detail);
    const sampling = takeSample(this.#service, {
      words: normalised(words),
      listened: listened.value,
      guardMs: this.#guardMs(),
    });
    this.#sampling = sampling;
    const sampled = await sampling.result;
    if (this.#sampling === sampling) this.#sampling = null;
    return sampled.ok ? ok({ words, features: sampled.value.features }) : sampled;
  }

  stopSampling(): void {
    this.#sampling?.stop();
    this.#sampling = null;
  }

  know(samples: readonly VoiceSample[]): void {
    this.#service.know(samples);
  }

  /** Every command but the one that these words mean: its other wordings may come as near as they like. */
  #othersThan(words: string): Vocabulary {
    const read = this.#phraseBook.understand({ commands: COMMAND_NAMES, nouns: COUNT_NOUNS }, words);
    if (read.kind !== 'command') return othersOf({ commands: [], nouns: [] });
    const nouns = read.command.name === 'count' ? [read.command.noun] : [];
    return othersOf({ commands: [read.command.name], nouns });
  }

  /** The room's echo of what the kiosk said is let die away. */
  #guardMs(): number {
    return this.#hushed ? REVERBERATION_MS : 0;
  }

  #open(vocabulary: Vocabulary): void {
    this.#close();
    const listened = listenForCommands(vocabulary, this.#phraseBook);
    if (!listened.ok) return this.#trouble('engine', listened.detail);
    const session = this.#service.open(listened.value, this.#guardMs(), (event) => {
      if (this.#session === session) this.#take(event, vocabulary);
    });
    this.#hushed = false;
    this.#session = session;
  }

  #take(event: SessionEvent, vocabulary: Vocabulary): void {
    if (event.kind === 'final') {
      const msToDecision = this.#now() - this.#service.timeOf(event.end) - PAUSE_MS;
      this.#heard.tell(heardFrom(event.verdict, { vocabulary, phraseBook: this.#phraseBook, msToDecision }));
    } else if (event.kind === 'refused') {
      this.#trouble('engine', event.detail);
    } else if (event.kind === 'lost') {
      // What was lost is told by the service, once for all.
      this.#session = null;
    }
  }

  #close(): void {
    const session = this.#session;
    this.#session = null;
    session?.close();
  }

  #trouble(trouble: HearingTrouble, detail: string): void {
    this.#ready = false;
    this.#session = null;
    this.#troubles.tell(trouble, detail);
  }
}
