/** An ear without sound: the test says what would be heard, and only an open ear passes it on. */
import type { Command } from '../../src/domain/command';
import { ok, refused, type Result } from '../../src/domain/result';
import type { EnrollingPort, SampleTrouble } from '../../src/voice/enrolling';
import type { Heard, HearingPort, HearingTrouble, Vocabulary } from '../../src/voice/hearing';
import type { VoiceSample } from '@stowcall/web-speech/core';
import { SAMPLE_WIDTH } from '@stowcall/web-speech/core';

export interface FakeEar extends HearingPort, EnrollingPort {
  /** The open vocabulary; null while the ear is closed. */
  open(): Vocabulary | null;
  /** The words that are being sampled; null for none. */
  sampling(): string | null;
  /** Whose voice is known. */
  known(): readonly VoiceSample[];
  /** How often it was told whose voice is known. */
  tellings(): number;
  /** A person says this command: heard where it is in the open vocabulary, not heard where it is not. */
  speak(command: Command): void;
  /** A person reads these words aloud. */
  read(words: string): void;
  /** Sound that is no command. */
  noise(isTooLoud?: true): void;
  unsure(candidates: readonly string[]): void;
  unplug(): void;
}

/** A sample of these words as the fake hears them: a few frames that follow from the words. */
export function fakeSample(words: string): VoiceSample {
  const codes = [...words].map((letter) => letter.charCodeAt(0) / 128);
  const features = Float32Array.from(
    { length: SAMPLE_WIDTH * codes.length },
    (_, index) => codes[Math.floor(index / SAMPLE_WIDTH)] ?? 0,
  );
  return { words, features };
}

interface Sampling {
  readonly words: string;
  readonly end: (sample: Result<VoiceSample, SampleTrouble>) => void;
}

/** The part of the fake that learns voices. */
function fakeEnroller(trouble: HearingTrouble | undefined, close: () => void) {
  let sampling: Sampling | null = null;
  let known: readonly VoiceSample[] = [];
  let tellings = 0;
  const end = (sample: Result<VoiceSample, SampleTrouble>): void => {
    const ended = sampling;
    sampling = null;
    ended?.end(sample);
  };
  const fail = (reason: SampleTrouble): void => end(refused(reason, `No sample: ${reason}.`));
  const port: EnrollingPort = {
    sample: (words) => {
      fail('stopped');
      close();
      if (trouble !== undefined) return Promise.resolve(refused(trouble, 'The ear did not start.'));
      return new Promise((done) => {
        sampling = { words, end: done };
      });
    },
    stopSampling: () => fail('stopped'),
    know: (samples) => {
      known = samples;
      tellings += 1;
    },
  };
  return {
    port,
    fail,
    hear: (words: string) => {
      if (sampling?.words === words) end(ok(fakeSample(words)));
      else fail('not-these-words');
    },
    sampling: () => sampling?.words ?? null,
    known: () => known,
    tellings: () => tellings,
  };
}

export function fakeEar(options: { readonly trouble?: HearingTrouble } = {}): FakeEar {
  const heardListeners = new Set<(heard: Heard) => void>();
  const troubleListeners = new Set<(trouble: HearingTrouble, detail: string) => void>();
  let open: Vocabulary | null = null;
  const tell = (heard: Heard): void => {
    if (open !== null) for (const listener of [...heardListeners]) listener(heard);
  };
  const enroller = fakeEnroller(options.trouble, () => {
    open = null;
  });
  const { sampling, known, tellings } = enroller;
  return {
    ...enroller.port,
    prepare: () =>
      Promise.resolve(
        options.trouble === undefined ? ok(undefined) : refused(options.trouble, 'The ear did not start.'),
      ),
    listen: (vocabulary) => {
      enroller.fail('stopped');
      open = vocabulary;
    },
    hush: () => {
      enroller.fail('stopped');
      open = null;
    },
    onHeard: (listener) => {
      heardListeners.add(listener);
      return () => heardListeners.delete(listener);
    },
    onLevel: () => () => undefined,
    onTrouble: (listener) => {
      troubleListeners.add(listener);
      return () => troubleListeners.delete(listener);
    },
    open: () => open,
    sampling,
    known,
    tellings,
    speak: (command) => {
      if (sampling() !== null) return enroller.hear(command.name);
      const legal = open?.commands.includes(command.name) ?? false;
      const nounLegal = command.name !== 'count' || (open?.nouns.includes(command.noun) ?? false);
      if (legal && nounLegal) tell({ kind: 'heard', command, words: command.name, msToDecision: 0 });
      else tell({ kind: 'notHeard' });
    },
    read: (words) => {
      if (sampling() !== null) enroller.hear(words);
      else tell({ kind: 'notHeard' });
    },
    noise: (isTooLoud) => {
      if (sampling() !== null) return enroller.fail(isTooLoud === undefined ? 'not-these-words' : 'too-loud');
      tell(isTooLoud === undefined ? { kind: 'notHeard' } : { kind: 'notHeard', isTooLoud });
    },
    unsure: (candidates) => tell({ kind: 'ambiguous', candidates }),
    unplug: () => {
      enroller.fail('unplugged');
      for (const listener of [...troubleListeners]) listener('unplugged', 'The microphone was unplugged.');
    },
  };
}
