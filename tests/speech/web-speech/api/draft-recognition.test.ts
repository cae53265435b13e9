/**
 * Each sentence of the Web Speech API draft (W3C Community Group, WebAudio/web-speech-api, read at 0a1b233) about
 * recognition that says "must" or "throw", in our words, with the heading under which it stands. What only a browser
 * can keep is not here: consent, the sign that sound is recorded, and that a track is not personalised.
 */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { SpeechRecognition } from '../../../../src/speech/web-speech/api/recognition';
import type { Row } from './draft-rig';
import { AGAIN, finals, MATCH, named, rig, started, track } from './draft-rig';
import { utterance } from './fake-service';

const ATTRIBUTES: readonly Row[] = [
  ['continuous', 'is false to begin with', () => expect(rig().recognition.continuous).toBe(false)],
  [
    'continuous',
    'when false, gives no more than one final result',
    async () => {
      const made = await started();
      made.service.tell(...utterance(MATCH), ...utterance(AGAIN));
      expect(finals(made)).toHaveLength(1);
    },
  ],
  [
    'continuous',
    'when true, gives any number of final results',
    async () => {
      const made = await started({ continuous: true });
      made.service.tell(...utterance(MATCH), ...utterance(AGAIN), ...utterance(MATCH));
      expect(finals(made)).toHaveLength(3);
      expect(made.names()).not.toContain('end');
    },
  ],
  ['interimResults', 'is false to begin with', () => expect(rig().recognition.interimResults).toBe(false)],
  [
    'interimResults',
    'when false, gives no interim result',
    async () => {
      const made = await started({ continuous: true });
      made.service.tell(...utterance(MATCH));
      expect(made.results()).toEqual(finals(made));
    },
  ],
  [
    'processLocally',
    'when true, speech is recognised on this machine, as it always is here',
    async () => expect(await SpeechRecognition.available({ langs: ['en-US'], processLocally: true })).toBe('available'),
  ],
];

const METHODS: readonly Row[] = [
  [
    'start(track)',
    'throws for a track that is no sound',
    () => expect(() => rig().recognition.start(track('video', 'live'))).toThrow(named('InvalidStateError')),
  ],
  [
    'start(track)',
    'throws for a track that has ended',
    () => expect(() => rig().recognition.start(track('audio', 'ended'))).toThrow(named('InvalidStateError')),
  ],
  [
    'stop()',
    'collects no more sound, and still tries for a result of what there was',
    async () => {
      const { service, recognition, names } = await started();
      service.tell(...utterance(MATCH).slice(0, 2));
      recognition.stop();
      expect(service.opened[0]?.finished).toBe(true);
      service.tell(...utterance(MATCH).slice(3), { kind: 'finished' });
      expect(names()).toContain('result');
    },
  ],
  [
    'stop()',
    'is ignored before the start, twice, after an error and after the end',
    async () => {
      const fresh = rig();
      fresh.recognition.stop();
      const made = await started();
      made.service.tell({ kind: 'lost', trouble: 'unplugged', detail: 'gone' });
      const before = made.names();
      made.recognition.stop();
      made.recognition.stop();
      expect([fresh.names(), made.names()]).toEqual([[], before]);
    },
  ],
  [
    'abort()',
    'stops recognising and tells nothing but that it has ended',
    async () => {
      const { service, recognition, names } = await started();
      service.tell(...utterance(MATCH).slice(0, 2));
      recognition.abort();
      service.tell(...utterance(MATCH).slice(2));
      expect(service.opened[0]?.closed).toBe(true);
      expect(names()).not.toContain('result');
      expect(names().at(-1)).toBe('end');
    },
  ],
  [
    'abort()',
    'is ignored before the start, twice, and after the end',
    async () => {
      const fresh = rig();
      fresh.recognition.abort();
      const made = await started();
      made.recognition.abort();
      made.recognition.abort();
      expect([fresh.names(), made.names().filter((name) => name === 'end')]).toEqual([[], ['end']]);
    },
  ],
  [
    'available()',
    'throws for what is no language tag',
    () => expect(SpeechRecognition.available({ langs: ['en-US', 'a tag'] })).rejects.toEqual(named('SyntaxError')),
  ],
  [
    'install()',
    'throws for what is no language tag',
    () => expect(SpeechRecognition.install({ langs: ['_'] })).rejects.toEqual(named('SyntaxError')),
  ],
  [
    'available(), install()',
    'are for all languages together: the worst one decides, and none is none',
    async () => {
      for (const [langs, status] of [
        [['en-US'], 'available'],
        [['en-US', 'fr'], 'unavailable'],
        [[], 'unavailable'],
      ] as const) {
        for (const processLocally of [true, false]) {
          expect(await SpeechRecognition.available({ langs, processLocally })).toBe(status);
          expect(await SpeechRecognition.install({ langs, processLocally })).toBe(status === 'available');
        }
      }
    },
  ],
  [
    'available(), install()',
    'know (draft of 8 May 2026) what quality is asked for: here it is that of commands',
    async () => {
      expect(await SpeechRecognition.available({ langs: ['en-US'], quality: 'command' })).toBe('available');
      expect(await SpeechRecognition.available({ langs: ['en-US'], quality: 'dictation' })).toBe('unavailable');
      expect(await SpeechRecognition.install({ langs: ['en-US'], quality: 'conversation' })).toBe(false);
    },
  ],
];

afterEach(() => vi.unstubAllGlobals());

describe.each([
  ['SpeechRecognition attributes', ATTRIBUTES],
  ['SpeechRecognition methods', METHODS],
])('the draft on %s', (_, rows) => {
  it.each(rows)('%s: %s', (_heading, _sentence, check) => check());
});
