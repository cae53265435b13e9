/** One recognition that a test speaks to, and what it tells, for the tables of the draft's sentences. */
import { expect } from 'vitest';
import { SpeechRecognition } from '../../../../src/speech/web-speech/api/recognition';
import { RECOGNITION_EVENTS } from '../../../../src/speech/web-speech/api/recognition-run';
import { SpeechRecognitionErrorEvent, SpeechRecognitionEvent } from '../../../../src/speech/web-speech/api/results';
import { FakeService, settle } from './fake-service';

export const MATCH = { kind: 'heard', words: 'stand by' } as const;
export const AGAIN = { kind: 'heard', words: 'say again' } as const;
export const UNSURE = { kind: 'ambiguous', candidates: ['stand by', 'say again'] } as const;
export const NONE = { kind: 'notHeard' } as const;

export function rig(settings: Partial<SpeechRecognition> = {}) {
  const service = new FakeService();
  const recognition = new SpeechRecognition(service);
  recognition.lang = 'en-US';
  recognition.grammars.addFromString('#JSGF V1.0; grammar test; public <a> = stand by | say again;');
  Object.assign(recognition, settings);
  const events: Event[] = [];
  for (const name of RECOGNITION_EVENTS) recognition.addEventListener(name, (event) => events.push(event));
  const names = (): string[] => events.map(({ type }) => type);
  const results = () => events.flatMap((event) => (event instanceof SpeechRecognitionEvent ? [event] : []));
  const errors = () => events.flatMap((event) => (event instanceof SpeechRecognitionErrorEvent ? [event] : []));
  return { service, recognition, events, names, results, errors };
}

export async function started(settings: Partial<SpeechRecognition> = {}) {
  const made = rig(settings);
  made.recognition.start();
  await settle();
  return made;
}

export const named = (name: string) => expect.objectContaining({ name });
export const track = (kind: string, readyState: string) => ({ kind, readyState }) as MediaStreamTrack;
export const finals = (made: ReturnType<typeof rig>) =>
  made.results().filter(({ results, resultIndex }) => results?.item(resultIndex)?.isFinal === true);

/** Whether the first of these came before the second, each time that the second came. */
export function isBefore(names: readonly string[], first: string, second: string): boolean {
  return names.includes(second) && names.indexOf(first) >= 0 && names.indexOf(first) < names.indexOf(second);
}

/** Under which heading, what it says, and whether it is so. */
export type Row = readonly [heading: string, sentence: string, check: () => void | Promise<void>];
