/**
 * Each sentence of the Web Speech API draft (W3C Community Group, WebAudio/web-speech-api, read at 0a1b233) about
 * sessions and events of recognition that says "must" or "throw", in our words, with the heading under which it stands. What only a browser
 * can keep is not here: consent, the sign that sound is recorded, and that a track is not personalised.
 */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { refused } from '../../../../src/domain/result';
import { SpeechRecognition } from '../../../../src/speech/web-speech/api/recognition';
import { SpeechRecognitionErrorEvent, SpeechRecognitionEvent } from '../../../../src/speech/web-speech/api/results';
import type { Row } from './draft-rig';
import { isBefore, MATCH, named, NONE, rig, started } from './draft-rig';
import { settle, utterance } from './fake-service';

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
  ['sessions', SESSION],
  ['SpeechRecognition events', EVENTS],
])('the draft on %s', (_, rows) => {
  it.each(rows)('%s: %s', (_heading, _sentence, check) => check());
});
