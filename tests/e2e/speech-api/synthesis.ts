/** Rows about the voice: events, their constructors, utterances, pausing, who may speak. */
import { apiOf, type SpeechApi } from './api';
import { openFrame } from './frames';
import type { Row } from './row';
import { holds, same, throws } from './row';

type Utterance = InstanceType<SpeechApi['SpeechSynthesisUtterance']>;
const NAMES = ['start', 'end', 'pause', 'resume', 'error'] as const;

const make = (text?: string): Utterance => new (apiOf().SpeechSynthesisUtterance)(text);

/** The events of an utterance up to its end or error, with what `paused` was at each. */
function told(utterance: Utterance): Promise<readonly (Event & { paused?: boolean })[]> {
  const events: Event[] = [];
  return new Promise((resolve) => {
    for (const name of NAMES) {
      utterance.addEventListener(name, (event) => {
        events.push(event);
        if (name === 'end' || name === 'error') resolve(events);
      });
    }
  });
}

async function spoken(utterance: Utterance): Promise<readonly Event[]> {
  const events = told(utterance);
  apiOf().speechSynthesis.speak(utterance);
  return events;
}

const types = (events: readonly Event[]): string[] => events.map(({ type }) => type);

const DEFAULTS = { text: '', lang: '', voice: null, volume: 1, rate: 1, pitch: 1 } as const;
const valuesOf = (utterance: Utterance) =>
  (Object.keys(DEFAULTS) as (keyof typeof DEFAULTS)[]).map((name) => utterance[name]);
const BASICS = 'SpeechSynthesisUtterance-basics.https.html';

const UTTERANCES: readonly Row[] = [
  ...(Object.entries(DEFAULTS) as [keyof typeof DEFAULTS, unknown][]).map(([name, first]): Row => [
    BASICS,
    `a new utterance has another ${name} than it should`,
    () => same(make()[name], first),
  ]),
  [
    BASICS,
    'a text that is given is lost, or changes what was not given',
    () => same(valuesOf(make('ready')), Object.values({ ...DEFAULTS, text: 'ready' })),
  ],
  [BASICS, 'null is not the text "null"', () => same(make(null as never).text, 'null')],
  [BASICS, 'undefined is not as if no text were given', () => same(make(undefined).text, '')],
  [
    BASICS,
    'the text cannot be set',
    () => {
      const utterance = make();
      utterance.text = 'ready';
      same(utterance.text, 'ready');
    },
  ],
];

const EVENT = 'SpeechSynthesisEvent-constructor.html';
const ERROR = 'SpeechSynthesisErrorEvent-constructor.html';
const event = (...given: unknown[]) => Reflect.construct(apiOf().SpeechSynthesisEvent, given);
const failure = (...given: unknown[]) => Reflect.construct(apiOf().SpeechSynthesisErrorEvent, given);

const CONSTRUCTORS: readonly Row[] = [
  [EVENT, 'an event is made of nothing', () => throws('TypeError', () => event())],
  [EVENT, 'an event is made of its type alone', () => throws('TypeError', () => event('type'))],
  [EVENT, 'an event is made without an utterance', () => throws('TypeError', () => event('type', {}))],
  [
    EVENT,
    'an event is made of everything but an utterance',
    () => throws('TypeError', () => event('type', { charIndex: 2, elapsedTime: 3, name: 'word' })),
  ],
  [
    EVENT,
    'what is not given is not nought or empty',
    () => {
      const utterance = make('ready');
      const { charIndex, charLength, elapsedTime, name, ...made } = read(event('type', { utterance }));
      same([charIndex, charLength, elapsedTime, name, made.utterance === utterance], [0, 0, 0, '', true]);
    },
  ],
  [
    EVENT,
    'what is given is lost',
    () => {
      const given = { utterance: make('ready'), charIndex: 7, charLength: 4, elapsedTime: 12, name: 'word' };
      const made = read(event('type', given));
      same([made.type, made.bubbles, made.cancelable], ['type', false, false]);
      same([made.utterance === given.utterance, made.charIndex, made.charLength], [true, 7, 4]);
      same([made.elapsedTime, made.name], [12, 'word']);
    },
  ],
  [ERROR, 'an error is made of nothing', () => throws('TypeError', () => failure())],
  [ERROR, 'an error is made of its type alone', () => throws('TypeError', () => failure('type'))],
  [ERROR, 'an error is made without utterance and code', () => throws('TypeError', () => failure('type', {}))],
  [
    ERROR,
    'an error is made without an utterance',
    () => throws('TypeError', () => failure('type', { error: 'interrupted' })),
  ],
  [ERROR, 'an error is made without a code', () => throws('TypeError', () => failure('type', { utterance: make() }))],
  [
    ERROR,
    'an error has not the code and utterance that were given, or not nought for the rest',
    () => {
      const utterance = make('ready');
      const made = read(failure('type', { utterance, error: 'interrupted' }));
      same([made.utterance === utterance, made.error, made.charIndex], [true, 'interrupted', 0]);
      same([made.elapsedTime, made.name], [0, '']);
    },
  ],
  [
    ERROR,
    'what is given to an error is lost',
    () => {
      const given = { utterance: make('ready'), charIndex: 7, elapsedTime: 12, name: 'word', error: 'audio-busy' };
      const made = read(failure('type', given));
      same([made.type, made.bubbles, made.cancelable, made.charIndex], ['type', false, false, 7]);
      same([made.utterance === given.utterance, made.elapsedTime, made.name], [true, 12, 'word']);
      same(made.error, 'audio-busy');
    },
  ],
  ...['', 'no such code', 'Interrupted'].map((error): Row => [
    ERROR,
    `"${error}" is taken for a code`,
    () => throws('TypeError', () => failure('type', { utterance: make(), error })),
  ]),
];

/** Attributes are read one by one: they lie on the prototype. */
function read({
  type,
  bubbles,
  cancelable,
  utterance,
  charIndex,
  charLength,
  elapsedTime,
  name,
  error,
}: Record<string, unknown>) {
  return { type, bubbles, cancelable, utterance, charIndex, charLength, elapsedTime, name, error };
}

const SPEAKING: readonly Row[] = [
  [
    'SpeechSynthesis-speak-events.html',
    'an empty utterance has no start or no end',
    async () => same(types(await spoken(make())), ['start', 'end']),
  ],
  [
    'SpeechSynthesis-speak-events.html',
    'an utterance has no start or no end',
    async () => same(types(await spoken(make('ready'))), ['start', 'end']),
  ],
  [
    'SpeechSynthesis-speak-with-activation-succeeds.html',
    'nothing is spoken though the page was touched',
    async () => same(types(await spoken(make('one'))).at(-1), 'end'),
  ],
  [
    'SpeechSynthesis-speak-twice.html',
    'an utterance is not spoken a second time',
    async () => {
      const utterance = make('one');
      same(types(await spoken(utterance)).at(-1), 'end');
      same(types(await spoken(utterance)).at(-1), 'end');
    },
  ],
  [
    'SpeechSynthesisEvent-properties.html',
    'an event is of another kind, bubbles, can be cancelled or forgets its utterance',
    async () => {
      const utterance = make('ready');
      const events = await spoken(utterance);
      same(events.length, 2);
      for (const one of events) {
        holds(one instanceof apiOf().SpeechSynthesisEvent, 'a SpeechSynthesisEvent');
        same([one.bubbles, one.cancelable, Reflect.get(one, 'utterance') === utterance], [false, false, true]);
      }
    },
  ],
  ...['SpeechSynthesis-speak.html', 'SpeechSynthesis-speak-ownership.html'].map((source): Row => [
    source,
    'two windows have one voice, or one speaks what was given to the other',
    async () => {
      const frame = await openFrame();
      holds(frame.api.speechSynthesis !== apiOf().speechSynthesis, 'another voice');
      const utterance = make('one');
      const ended = spoken(utterance);
      throws('TypeError', () => frame.api.speechSynthesis.speak(utterance));
      frame.remove();
      same(types(await ended).at(-1), 'end');
    },
  ]),
  [
    'SpeechSynthesis-pause-resume.tentative.html',
    'paused changes before its event, or pause and resume tell nothing',
    async () => {
      const { speechSynthesis: voice } = apiOf();
      const utterance = make('A sentence that is long enough to be held in the middle of it.');
      const states: unknown[] = [voice.paused];
      const note = (): void => void states.push(voice.paused);
      const events = told(utterance);
      utterance.onstart = () => {
        note();
        voice.pause();
        note();
      };
      utterance.onpause = () => {
        note();
        voice.resume();
        note();
      };
      utterance.onresume = note;
      voice.speak(utterance);
      note();
      same(types(await events), ['start', 'pause', 'resume', 'end']);
      same(states, [false, false, false, false, true, true, false]);
    },
  ],
  [
    'Speechsynthesis-cancel-cross-window-manual.html',
    'what waits or is spoken goes on after another frame cancelled it',
    async () => {
      const { speechSynthesis: voice } = apiOf();
      const [first, second] = [make('The first of two.'), make('The second of two.')];
      const ends = [told(first), told(second)];
      const begun = new Promise((resolve) => first.addEventListener('start', resolve));
      voice.speak(first);
      voice.speak(second);
      same(voice.pending, true);
      await begun;
      const frame = await openFrame();
      apiOf(frame.window.parent).speechSynthesis.cancel();
      same([voice.pending, voice.speaking], [false, false]);
      frame.remove();
      same(
        (await Promise.all(ends)).map((events) => Reflect.get(events.at(-1) ?? {}, 'error')),
        ['interrupted', 'canceled'],
      );
    },
  ],
];

export const SYNTHESIS: readonly Row[] = [...UTTERANCES, ...CONSTRUCTORS, ...SPEAKING];

/** Before anybody has touched the page. */
export const UNTOUCHED: readonly Row[] = [
  [
    'SpeechSynthesis-speak-without-activation-fails.tentative.html',
    'a page that nobody has touched speaks, or does not say why not',
    async () => {
      const events = await spoken(make('one'));
      same([types(events).at(-1), Reflect.get(events.at(-1) ?? {}, 'error')], ['error', 'not-allowed']);
    },
  ],
];
