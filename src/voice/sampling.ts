/** Takes one sample of how somebody says a phrase: the recogniser is open for that phrase alone until something was said. */
import type { Result } from '../domain/result';
import { ok, refused } from '../domain/result';
import type { SampleTrouble } from './enrolling';
import type { RecognitionService, Session, SessionEvent } from '@stowcall/web-speech';
import type { ListenFor, VoiceSample } from '@stowcall/web-speech/core';

export interface SampleWanted {
  readonly words: string;
  /** These words, and the phrases that are known so as not to be taken for them. */
  readonly listened: ListenFor;
  readonly guardMs: number;
}

export type Sampled = Result<VoiceSample, SampleTrouble>;

export interface Sampling {
  /** Never rejects. */
  readonly result: Promise<Sampled>;
  /** Hears nothing more; the result is then `stopped`, if it is not there yet. */
  stop(): void;
}

/** Loads what is not loaded yet, listens from now on, and ends by itself when something was said. */
export function takeSample(service: RecognitionService, wanted: SampleWanted): Sampling {
  let session: Session | null = null;
  let settle: (sampled: Sampled) => void = () => undefined;
  let isOver = false;
  const result = new Promise<Sampled>((resolve) => {
    settle = resolve;
  });
  const end = (sampled: Sampled): void => {
    if (isOver) return;
    isOver = true;
    session?.close();
    settle(sampled);
  };
  void service.prepare().then((prepared) => {
    if (isOver) return;
    if (!prepared.ok) return end(prepared);
    session = service.open(wanted.listened, wanted.guardMs, (event) => {
      const sampled = sampledBy(event, wanted.words);
      if (sampled !== null) end(sampled);
    });
  });
  return { result, stop: () => end(refused('stopped', 'The ear was needed for something else; say it again.')) };
}

/** What this event makes of the sample; null where it goes on. */
function sampledBy(event: SessionEvent, words: string): Sampled | null {
  switch (event.kind) {
    case 'final': {
      const { verdict, features } = event;
      if (verdict.kind === 'heard' && features !== undefined) return ok({ words, features });
      return verdict.kind === 'notHeard' && verdict.isTooLoud === true
        ? refused('too-loud', 'It is too loud to learn this voice; wait for a quieter moment.')
        : refused('not-these-words', `That was not understood as "${words}"; say it once more.`);
    }
    case 'lost':
      return refused(event.trouble, event.detail);
    case 'refused':
      return refused('engine', event.detail);
    default:
      return null;
  }
}
