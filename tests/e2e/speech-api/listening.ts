/** Rows in which the recogniser listens: to silence, to a voice that is no person's, to a track, to no microphone. */
import { apiOf, type SpeechApi } from './api';
import type { Row } from './row';
import { holds, same, throws } from './row';

type Recognition = InstanceType<SpeechApi['SpeechRecognition']>;
const NAMES = 'start audiostart soundstart speechstart speechend soundend audioend result nomatch error end'.split(' ');
const SILENCE_MS = 400;
const RATE = 16_000;

declare global {
  interface Window {
    /** Given by the test: a sentence as base64 of Float32 samples at 16 kHz. */
    renderSpeech(text: string): Promise<string>;
  }
}

interface Listening {
  readonly recognition: Recognition;
  readonly events: readonly Event[];
  readonly names: () => readonly string[];
  /** The first event of a kind. */
  readonly first: (name: string) => Promise<Event>;
}

/** The published tests let free speech be heard; this recogniser hears given phrases, so it is given two. */
function listening(settings: Partial<Recognition> = {}): Listening {
  const recognition = new (apiOf().SpeechRecognition)();
  const { SpeechRecognitionPhrase } = apiOf();
  recognition.lang = 'en-US';
  recognition.phrases = ['stand by', 'say again'].map((phrase) => new SpeechRecognitionPhrase(phrase));
  Object.assign(recognition, settings);
  const events: Event[] = [];
  for (const name of NAMES) recognition.addEventListener(name, (event) => events.push(event));
  const first = (name: string) =>
    new Promise<Event>((resolve) => recognition.addEventListener(name, resolve, { once: true }));
  return { recognition, events, names: () => events.map(({ type }) => type), first };
}

const wait = (ms: number): Promise<unknown> => new Promise((done) => setTimeout(done, ms));

async function say(text: string): Promise<void> {
  await window.tableStub.say(await window.renderSpeech(text));
}

/** The next final result, which comes when a pause has ended the utterance. */
function final(recognition: Recognition): Promise<void> {
  return new Promise((resolve) => {
    const look = (event: Event): void => {
      const { results, resultIndex } = event as Told;
      if (results[resultIndex]?.isFinal !== true) return;
      recognition.removeEventListener('result', look);
      resolve();
    };
    recognition.addEventListener('result', look);
  });
}

async function trackOf(text: string): Promise<MediaStreamTrack> {
  const bytes = Uint8Array.from(atob(await window.renderSpeech(text)), (one) => one.charCodeAt(0));
  const samples = new Float32Array(bytes.buffer);
  const context = new AudioContext({ sampleRate: RATE });
  const buffer = context.createBuffer(1, samples.length + 3 * RATE, RATE);
  buffer.copyToChannel(samples, 0, RATE);
  const source = context.createBufferSource();
  const out = context.createMediaStreamDestination();
  source.buffer = buffer;
  source.loop = true;
  source.connect(out);
  source.start();
  const [track] = out.stream.getAudioTracks();
  if (track === undefined) throw new Error('no track');
  return track;
}

/** Each start is followed by its end, after the start of all, and nothing of it is left open. */
function cycles(names: readonly string[], what: string): void {
  const own = names.filter((name) => name === `${what}start` || name === `${what}end`);
  holds(own.length > 0 && own.length % 2 === 0, `${what} in pairs: ${own.join(' ')}`);
  own.forEach((name, index) => same(name, `${what}${index % 2 === 0 ? 'start' : 'end'}`));
  holds(names.indexOf('start') < names.indexOf(`${what}start`), `start before ${what}start`);
}

interface Told extends Event {
  readonly resultIndex: number;
  readonly results: ArrayLike<ArrayLike<{ readonly transcript: string }> & { readonly isFinal: boolean }>;
}

/** What the published test asks of every result event; the number of final results. */
function checkResults(events: readonly Event[], { interimResults, maxAlternatives }: Recognition): number {
  let finals = 0;
  let pending = 0;
  for (const event of events.filter(({ type }) => type === 'result')) {
    const { resultIndex, results } = event as Told;
    holds(resultIndex >= finals, 'a final result does not change');
    holds(resultIndex <= results.length, 'the index is not beyond the list');
    for (const [index, result] of Array.from(results).entries()) {
      holds(result.length >= 1 && result.length <= maxAlternatives, 'alternatives, and not more than are wanted');
      holds(result.isFinal || index >= finals, 'what was final stays so');
      if (result.isFinal) finals = Math.max(finals, index + 1);
    }
    pending = results.length - finals;
    holds(interimResults || pending === 0, 'no interim result where none is wanted');
  }
  same(pending, 0);
  return finals;
}

const QUIET = ['start', 'audiostart', 'audioend', 'end'];
const textOf = (event: Event): string => (event as Told).results[0]?.[0]?.transcript ?? '';

export const LISTENING: readonly Row[] = [
  [
    'SpeechRecognition-onstart-onend.https.html',
    'start or end are not told to their handlers',
    async () => {
      const { recognition } = listening();
      const started = new Promise((resolve) => (recognition.onstart = resolve));
      const ended = new Promise((resolve) => (recognition.onend = resolve));
      recognition.start();
      await started;
      recognition.stop();
      await ended;
    },
  ],
  [
    'SpeechRecognition-stop-manual.https.html',
    'stopped in silence, it tells of sound, speech, a result or an error',
    async () => {
      const { recognition, names, first } = listening();
      recognition.start();
      await first('start');
      await wait(SILENCE_MS);
      recognition.stop();
      await first('end');
      same(
        names().filter((name) => name !== 'nomatch'),
        QUIET,
      );
      cycles(names(), 'audio');
    },
  ],
  [
    'SpeechRecognition-abort-manual.https.html',
    'aborted in silence, it tells of sound, speech, a result or no match',
    async () => {
      const { recognition, names, first } = listening();
      recognition.start();
      await first('start');
      await wait(SILENCE_MS);
      recognition.abort();
      same(names(), QUIET);
      cycles(names(), 'audio');
    },
  ],
  [
    'SpeechRecognition-onresult-manual.https.html',
    'not continuous, it gives more than one final result, an interim one or too many alternatives',
    async () => {
      const { recognition, names, events, first } = listening({ maxAlternatives: 3 });
      const ended = first('end');
      recognition.start();
      await first('start');
      await say('stand by');
      await ended;
      same(checkResults(events, recognition), 1);
      for (const what of ['audio', 'sound', 'speech']) cycles(names(), what);
    },
  ],
  [
    'SpeechRecognition-onresult-manual.https.html',
    'continuous, with interim results, one that was final changes or one is left open',
    async () => {
      const { recognition, names, events, first } = listening({ continuous: true, interimResults: true });
      const ended = first('end');
      recognition.start();
      await first('start');
      for (const text of ['stand by', 'say again']) {
        const heard = final(recognition);
        await say(text);
        await heard;
      }
      recognition.stop();
      await ended;
      same(checkResults(events, recognition), 2);
      for (const what of ['audio', 'sound', 'speech']) cycles(names(), what);
    },
  ],
  [
    'SpeechRecognition-mediaStreamTrack-manual.https.html, SpeechRecognition-phrases-manual.https.html',
    'the given phrase is not heard from a track, or it starts a second time',
    async () => {
      const { recognition, first } = listening({ continuous: true });
      const result = first('result');
      recognition.start(await trackOf('say again'));
      same(textOf(await result), 'say again');
      throws('InvalidStateError', () => recognition.start());
      recognition.abort();
    },
  ],
  [
    'SpeechRecognition-onerror.https.html',
    'without a microphone there is no error that says so, or stop throws after it',
    async () => {
      const { recognition, first } = listening();
      window.tableStub.unplug('audio');
      const failed = first('error');
      recognition.start();
      same(Reflect.get(await failed, 'error'), 'audio-capture');
      recognition.stop();
      window.tableStub.plugIn();
    },
  ],
  [
    'SpeechRecognition-onerror-manual.https.html',
    'where nobody speaks there is no no-speech error, or more than it',
    async () => {
      const { recognition, names, first } = listening();
      recognition.start();
      const failed = await first('error');
      same([Reflect.get(failed, 'error'), typeof Reflect.get(failed, 'message')], ['no-speech', 'string']);
      same(
        names().filter((name) => !QUIET.includes(name)),
        ['error'],
      );
    },
  ],
];
