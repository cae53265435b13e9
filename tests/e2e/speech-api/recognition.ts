/** Rows about recognition that need no sound: what it is to begin with, grammars, availability, frames. */
import { apiOf } from './api';
import { askForeignFrame, openFrame } from './frames';
import type { Row } from './row';
import { holds, refuses, same, throws } from './row';

const ENGLISH = { langs: ['en-US'], processLocally: true };
const BAD = { langs: ['not a language'], processLocally: true };
const ABNF = '#ABNF 1.0 UTF-8;\nlanguage en-US; root $ready; $ready = ready;';
const NO_POLICY = "on-device-speech-recognition 'none'";

const BASICS: readonly Row[] = [
  [
    'SpeechRecognition-basics.https.html',
    'a new recognition has grammars, phrases, a language or a mode that nobody has set',
    () => {
      const recognition = new (apiOf().SpeechRecognition)();
      const { lang, continuous, interimResults, maxAlternatives, processLocally } = recognition;
      same([lang, continuous, interimResults, maxAlternatives, processLocally], ['', false, false, 1, false]);
      same([recognition.grammars.length, recognition.phrases.length], [0, 0]);
    },
  ],
  [
    'SpeechGrammarList-item.https.html',
    'a list of grammars answers for an index that it has not',
    () => {
      const list = new (apiOf().SpeechGrammarList)();
      same([list.length, list.item(0), list.item(255)], [0, null, null]);
      same(list[255], undefined);
    },
  ],
  [
    'SpeechGrammarList-item.https.html',
    'a grammar that was added is not found at its index',
    () => {
      const list = new (apiOf().SpeechGrammarList)();
      list.addFromString(ABNF);
      same(list.length, 1);
      holds(list.item(0) instanceof apiOf().SpeechGrammar && list[0] === list.item(0), 'a grammar at 0');
      same(list.item(1), null);
    },
  ],
  [
    'idlharness.https.window.js',
    'addFromUri is missing or spelt otherwise',
    () => {
      const list = new (apiOf().SpeechGrammarList)();
      same([typeof list.addFromUri, 'addFromURI' in list], ['function', false]);
      list.addFromUri(`data:application/srgs,${encodeURIComponent(ABNF)}`);
      same(list.item(0)?.src, ABNF);
      throws('NotSupportedError', () => list.addFromUri('/commands.gram'));
    },
  ],
  [
    'idlharness.https.window.js',
    'phrases are no array that a page may add to, or take what is no phrase',
    () => {
      const { SpeechRecognition, SpeechRecognitionPhrase } = apiOf();
      const recognition = new SpeechRecognition();
      const { phrases } = recognition;
      if (!Array.isArray(phrases)) throw new Error('no array');
      phrases.push(new SpeechRecognitionPhrase('ready'));
      same(recognition.phrases.length, 1);
      throws('TypeError', () => Reflect.set(recognition, 'phrases', ['ready']));
    },
  ],
  [
    'idlharness.https.window.js',
    'speechSynthesis is not one object that a page cannot replace',
    () => {
      const found = Object.getOwnPropertyDescriptor(window, 'speechSynthesis');
      same([typeof found?.get, found?.set, found?.enumerable], ['function', undefined, true]);
      same(window.speechSynthesis, window.speechSynthesis);
    },
  ],
  [
    'historical.html',
    'a name of earlier drafts or with a prefix is exposed',
    async () => {
      const frame = await openFrame();
      const old = frame.window.speechApi.namesOn(true).filter((name) => /^webkit|^SpeechRecognitionError$/.test(name));
      frame.remove();
      same(old, []);
    },
  ],
  [
    'historical.html',
    'serviceURI, interpretation or emma are still there',
    () => {
      const { SpeechRecognition, SpeechRecognitionEvent } = apiOf();
      same('serviceURI' in SpeechRecognition.prototype, false);
      same(
        ['interpretation', 'emma'].some((name) => name in SpeechRecognitionEvent.prototype),
        false,
      );
    },
  ],
  [
    'SpeechRecognition-non-secure-context.http.html',
    'recognition is exposed in an insecure context, or synthesis is not',
    async () => {
      const frame = await openFrame();
      const names = frame.window.speechApi.namesOn(false);
      frame.remove();
      same(
        [names.filter((name) => /^SpeechRecognition/.test(name)).length, names.includes('SpeechSynthesis')],
        [0, true],
      );
    },
  ],
];

const AVAILABILITY: readonly Row[] = [
  [
    'SpeechRecognition-availableOnDevice.https.html',
    'available gives no promise of one of the four answers',
    async () => {
      const promise = apiOf().SpeechRecognition.available({ langs: ['en-US', 'fr-FR'], processLocally: true });
      holds(promise instanceof Promise, 'a promise');
      holds(['unavailable', 'downloadable', 'downloading', 'available'].includes(await promise), 'a known answer');
    },
  ],
  [
    'SpeechRecognition-availableOnDevice.https.html',
    'available throws, or answers, for what is no language tag',
    () => refuses('SyntaxError', apiOf().SpeechRecognition.available(BAD)).then(() => undefined),
  ],
  [
    'idlharness.https.window.js',
    'available or install throw, or answer, where nothing is asked for',
    async () => {
      const { SpeechRecognition } = apiOf();
      for (const options of [undefined, {}]) {
        await refuses('TypeError', Reflect.apply(SpeechRecognition.available, SpeechRecognition, [options]) as never);
        await refuses('TypeError', Reflect.apply(SpeechRecognition.install, SpeechRecognition, [options]) as never);
      }
    },
  ],
  [
    'SpeechRecognition-installOnDevice.https.html',
    'install of what is here gives no promise of true, or it is not available then',
    async () => {
      const promise = apiOf().SpeechRecognition.install(ENGLISH);
      holds(promise instanceof Promise, 'a promise');
      same([await promise, await apiOf().SpeechRecognition.available(ENGLISH)], [true, 'available']);
      same(await apiOf().SpeechRecognition.install(ENGLISH), true);
    },
  ],
  [
    'SpeechRecognition-installOnDevice.https.html',
    'install throws, or answers, for what is no language tag',
    () => refuses('SyntaxError', apiOf().SpeechRecognition.install(BAD)).then(() => undefined),
  ],
];

const FRAMES: readonly Row[] = [
  [
    'SpeechRecognition-detached-iframe.window.js',
    'recognition starts in a frame that is gone',
    async () => {
      const frame = await openFrame();
      const recognition = new frame.api.SpeechRecognition();
      frame.remove();
      throws('InvalidStateError', () => recognition.start());
    },
  ],
  [
    'SpeechRecognition-availableOnDevice.https.html',
    'available answers in a frame that is gone',
    async () => {
      const frame = await openFrame();
      frame.remove();
      await refuses('InvalidStateError', frame.api.SpeechRecognition.available(ENGLISH));
    },
  ],
  [
    'SpeechRecognition-installOnDevice.https.html',
    'install answers in a frame that is gone',
    async () => {
      const frame = await openFrame();
      frame.remove();
      await refuses('InvalidStateError', frame.api.SpeechRecognition.install(ENGLISH));
    },
  ],
  [
    'SpeechRecognition-availableOnDevice.https.html',
    'recognition is available in a frame whose policy forbids it',
    async () => {
      const frame = await openFrame(NO_POLICY);
      same(await frame.api.SpeechRecognition.available(ENGLISH), 'unavailable');
      frame.remove();
    },
  ],
  [
    'SpeechRecognition-installOnDevice.https.html',
    'install does something in a frame whose policy forbids it',
    async () => {
      const frame = await openFrame(NO_POLICY);
      await refuses('NotAllowedError', frame.api.SpeechRecognition.install(ENGLISH));
      frame.remove();
    },
  ],
  [
    'SpeechRecognition-availableOnDevice.https.html',
    'recognition is available in a frame of another origin',
    async () => same((await askForeignFrame()).available, 'unavailable'),
  ],
  [
    'SpeechRecognition-installOnDevice.https.html',
    'install does something in a frame of another origin, or does not say that this is why not',
    async () => {
      const { install, message } = await askForeignFrame();
      same(install, 'NotAllowedError');
      holds(/cross-origin iframe/.test(message), message);
    },
  ],
];

export const RECOGNITION: readonly Row[] = [...BASICS, ...AVAILABILITY, ...FRAMES];
