/**
 * Each sentence of the Web Speech API draft (W3C Community Group, WebAudio/web-speech-api, read at 0a1b233) about
 * recognition that says "must" or "throw", in our words, with the heading under which it stands. What only a browser
 * can keep is not here: consent, the sign that sound is recorded, and that a track is not personalised.
 */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { refused } from '../../../../src/domain/result';
import { SpeechRecognition } from '../../../../src/speech/web-speech/api/recognition';
import { SpeechRecognitionErrorEvent, SpeechRecognitionEvent } from '../../../../src/speech/web-speech/api/results';
import type { Row } from './draft-rig';
import { AGAIN, finals, isBefore, MATCH, named, NONE, rig, started, track } from './draft-rig';
import { settle, utterance } from './fake-service';

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

const SESSION: readonly Row[] = [
  [
    'availability algorithm, install(), start session algorithm',
    'throw in a page that is shown no more',
    async () => {
      vi.stubGlobal('document', { defaultView: null });
      const { recognition } = rig();
      const options = { langs: ['en-US'] };
      // Web IDL: what a function that gives a promise throws, its promise is refused with.
      await expect(SpeechRecognition.available(options)).rejects.toEqual(named('InvalidStateError'));
      await expect(SpeechRecognition.install(options)).rejects.toEqual(named('InvalidStateError'));
      expect(() => recognition.start()).toThrow(named('InvalidStateError'));
    },
  ],
  [
    'start session algorithm',
    'throws while it runs',
    async () => {
      const { recognition } = rig();
      recognition.start();
      expect(() => recognition.start()).toThrow(named('InvalidStateError'));
      await settle();
      expect(() => recognition.start()).toThrow(named('InvalidStateError'));
    },
  ],
  [
    'start session algorithm',
    'does not throw once error or end has been told, also while it is being told',
    async () => {
      for (const name of ['error', 'end'] as const) {
        const made = rig();
        made.service.answer = refused('absent', 'no microphone');
        made.recognition.addEventListener(name, () => made.recognition.start(), { once: true });
        made.recognition.start();
        await settle();
        made.service.answer = { ok: true, value: undefined };
        await settle();
        expect(made.names().filter((one) => one === 'error').length).toBeGreaterThan(0);
        expect(made.service.tracks).toHaveLength(2);
      }
    },
  ],
  [
    'start session algorithm',
    'where it cannot be local though it must, there is an error of service-not-allowed that says why, and no session',
    async () => {
      const { names, errors } = await started({ processLocally: true, lang: 'fr' });
      expect(names()).toEqual(['error']);
      expect(errors()[0]?.error).toBe('service-not-allowed');
      expect(errors()[0]?.message).toMatch(/fr/);
    },
  ],
  [
    'start session algorithm',
    'tells the start once it really listens',
    async () => {
      const made = rig();
      made.recognition.start();
      expect(made.names()).toEqual([]);
      await settle();
      expect([made.service.opened.length, made.names()[0]]).toEqual([1, 'start']);
    },
  ],
];

const EVENTS: readonly Row[] = [
  [
    'events',
    'neither bubble nor can be cancelled',
    async () => {
      const { service, events } = await started({ interimResults: true });
      service.tell(...utterance(MATCH));
      expect(events.filter(({ bubbles, cancelable }) => bubbles || cancelable)).toEqual([]);
    },
  ],
  [
    'events',
    'carry the moment at which it happened, as far as it is known',
    async () => {
      const { service, events } = await started();
      service.tell(...utterance(MATCH, 4321));
      const at = (name: string) => events.find(({ type }) => type === name)?.timeStamp;
      expect([at('soundstart'), at('speechstart'), at('speechend')]).toEqual([3521, 3621, 4321]);
    },
  ],
  ...(
    [
      ['audiostart', 'soundstart'],
      ['audiostart', 'speechstart'],
      ['speechstart', 'speechend'],
      ['soundstart', 'soundend'],
      ['audiostart', 'audioend'],
      ['audiostart', 'result'],
    ] as const
  ).map(([first, second]): Row => [
    second,
    `never comes without ${first} before it`,
    async () => {
      const { service, names } = await started();
      service.tell(...utterance(MATCH));
      expect(isBefore(names(), first, second)).toBe(true);
    },
  ]),
  [
    'nomatch',
    'never comes without audiostart before it, and is a SpeechRecognitionEvent whose results may be null',
    async () => {
      const { service, names, results } = await started();
      service.tell(...utterance(NONE));
      expect(isBefore(names(), 'audiostart', 'nomatch')).toBe(true);
      expect(results().map(({ type, results: list }) => [type, list])).toEqual([['nomatch', null]]);
    },
  ],
  [
    'result',
    'is a SpeechRecognitionEvent',
    async () => {
      const { service, events } = await started();
      service.tell(...utterance(MATCH));
      expect(events.find(({ type }) => type === 'result')).toBeInstanceOf(SpeechRecognitionEvent);
    },
  ],
  [
    'error',
    'is a SpeechRecognitionErrorEvent',
    async () => {
      const { events } = await started({ lang: 'fr' });
      expect(events[0]).toBeInstanceOf(SpeechRecognitionErrorEvent);
    },
  ],
  [
    'end',
    'comes whatever ended the session: a result, none, stop, abort, a lost microphone',
    async () => {
      const endings: readonly ((made: Awaited<ReturnType<typeof started>>) => void)[] = [
        ({ service }) => service.tell(...utterance(MATCH)),
        ({ service }) => service.tell(...utterance(NONE)),
        ({ service, recognition }) => (recognition.stop(), service.tell({ kind: 'finished' })),
        ({ recognition }) => recognition.abort(),
        ({ service }) => service.tell({ kind: 'lost', trouble: 'unplugged', detail: 'gone' }),
      ];
      for (const ending of endings) {
        const made = await started();
        ending(made);
        expect(made.names().at(-1)).toBe('end');
      }
    },
  ],
];

afterEach(() => vi.unstubAllGlobals());

describe.each([
  ['SpeechRecognition attributes', ATTRIBUTES],
  ['SpeechRecognition methods', METHODS],
  ['sessions', SESSION],
  ['SpeechRecognition events', EVENTS],
])('the draft on %s', (_, rows) => {
  it.each(rows)('%s: %s', (_heading, _sentence, check) => check());
});
