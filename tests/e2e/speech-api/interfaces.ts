/** The shape of each interface, as Web IDL asks for it: one row for each promise that a published harness checks. */
import { apiOf } from './api';
import type { Row } from './row';
import { holds, same, throws } from './row';

interface Shape {
  /** Arguments that `new` needs; null where a page may not use it. */
  readonly make: number | null;
  readonly extends?: string;
  /** Attributes that may only be read, that may be set, event handlers, and operations with the arguments they need. */
  readonly read?: readonly string[];
  readonly set?: readonly string[];
  readonly on?: readonly string[];
  readonly does?: Readonly<Record<string, number>>;
  readonly one?: () => object;
}

const RECOGNITION_EVENTS =
  'audiostart soundstart speechstart speechend soundend audioend result nomatch error start end';
const UTTERANCE_EVENTS = 'start end error pause resume mark boundary';
const words = (text: string): string[] => text.split(' ');
const utterance = (): object => make('SpeechSynthesisUtterance', 'One.');
const make = (name: string, ...given: unknown[]): object => Reflect.construct(interfaceOf(name), given) as object;

/** From the interface definitions that are published beside the tests. */
const SHAPES: Readonly<Record<string, Shape>> = {
  SpeechRecognition: {
    make: 0,
    extends: 'EventTarget',
    set: words('grammars lang continuous interimResults unspokenPunctuation maxAlternatives processLocally phrases'),
    on: words(RECOGNITION_EVENTS),
    does: { start: 0, stop: 0, abort: 0 },
    one: () => make('SpeechRecognition'),
  },
  SpeechRecognitionErrorEvent: {
    make: 2,
    extends: 'Event',
    read: ['error', 'message'],
    one: () => make('SpeechRecognitionErrorEvent', 'error', { error: 'network' }),
  },
  SpeechRecognitionAlternative: { make: null, read: ['transcript', 'confidence'] },
  SpeechRecognitionResult: { make: null, read: ['length', 'isFinal'], does: { item: 1 } },
  SpeechRecognitionResultList: { make: null, read: ['length'], does: { item: 1 } },
  SpeechRecognitionEvent: {
    make: 2,
    extends: 'Event',
    read: ['resultIndex', 'results'],
    one: () => make('SpeechRecognitionEvent', 'nomatch', { results: null }),
  },
  SpeechGrammar: {
    make: null,
    set: ['src', 'weight'],
    one: () => {
      const list = new (apiOf().SpeechGrammarList)();
      list.addFromString('#JSGF');
      return list.item(0) as object;
    },
  },
  SpeechGrammarList: {
    make: 0,
    read: ['length'],
    does: { item: 1, addFromUri: 1, addFromString: 1 },
    one: () => make('SpeechGrammarList'),
  },
  SpeechRecognitionPhrase: { make: 1, read: ['phrase', 'boost'], one: () => make('SpeechRecognitionPhrase', 'one') },
  SpeechSynthesis: {
    make: null,
    extends: 'EventTarget',
    read: ['pending', 'speaking', 'paused'],
    on: ['voiceschanged'],
    does: { speak: 1, cancel: 0, pause: 0, resume: 0, getVoices: 0 },
    one: () => apiOf().speechSynthesis,
  },
  SpeechSynthesisUtterance: {
    make: 0,
    extends: 'EventTarget',
    set: words('text lang voice volume rate pitch'),
    on: words(UTTERANCE_EVENTS),
    one: utterance,
  },
  SpeechSynthesisEvent: {
    make: 2,
    extends: 'Event',
    read: words('utterance charIndex charLength elapsedTime name'),
    one: () => make('SpeechSynthesisEvent', 'start', { utterance: utterance() }),
  },
  SpeechSynthesisErrorEvent: {
    make: 2,
    extends: 'SpeechSynthesisEvent',
    read: ['error'],
    one: () => make('SpeechSynthesisErrorEvent', 'error', { utterance: utterance(), error: 'network' }),
  },
  SpeechSynthesisVoice: {
    make: null,
    read: words('voiceURI name lang localService default'),
    one: () => apiOf().speechSynthesis.getVoices()[0] as object,
  },
};

/** What lies on the window under this name. */
function interfaceOf(name: string): { new (...given: unknown[]): object; readonly prototype: object } {
  return Reflect.get(window, name);
}

const SOURCE = 'idlharness.https.window.js';
const own = (holder: object, name: PropertyKey) => Object.getOwnPropertyDescriptor(holder, name);

export const INTERFACES: readonly Row[] = Object.entries(SHAPES).flatMap(([name, shape]) => rowsOf(name, shape));

function rowsOf(name: string, shape: Shape): Row[] {
  const rows: Row[] = [
    [SOURCE, `${name} is not on the window as an interface is`, () => checkInterface(name, shape)],
    [SOURCE, `${name} is made by new, or refuses it, otherwise than it should`, () => checkNew(name, shape)],
    [
      SOURCE,
      `${name}: an attribute is not read, set or kept from being set through the prototype`,
      () => checkAttributes(name, shape),
    ],
    [
      SOURCE,
      `${name}: an operation is missing, or does without an argument that it needs`,
      () => checkOperations(name, shape),
    ],
  ];
  const { one } = shape;
  if (one !== undefined)
    rows.push([SOURCE, `an object of ${name} lacks a member, or is of another kind`, () => checkObject(name, one())]);
  return rows;
}

function checkInterface(name: string, { make, extends: parent }: Shape): void {
  const found = own(window, name);
  same([found?.writable, found?.enumerable, found?.configurable], [true, false, true]);
  const { prototype } = interfaceOf(name);
  same([own(interfaceOf(name), 'name')?.value, own(interfaceOf(name), 'length')?.value], [name, make ?? 0]);
  same(own(prototype, 'constructor')?.value, interfaceOf(name));
  same(own(interfaceOf(name), 'prototype')?.writable, false);
  same(Object.prototype.toString.call(prototype), `[object ${name}]`);
  const above = parent === undefined ? null : interfaceOf(parent);
  same(Object.getPrototypeOf(interfaceOf(name)), above ?? Function.prototype);
  same(Object.getPrototypeOf(prototype), above?.prototype ?? Object.prototype);
}

function checkNew(name: string, { make }: Shape): void {
  throws('TypeError', () => Reflect.apply(interfaceOf(name) as never, undefined, []));
  if (make !== 0) throws('TypeError', () => new (interfaceOf(name))());
  else holds(new (interfaceOf(name))() instanceof interfaceOf(name), `new ${name}() is a ${name}`);
}

function checkAttributes(name: string, { read = [], set = [], on = [] }: Shape): void {
  const { prototype } = interfaceOf(name);
  for (const member of [...read, ...set, ...on.map((event) => `on${event}`)]) {
    const found = own(prototype, member);
    same([member, found?.enumerable, found?.configurable, typeof found?.get], [member, true, true, 'function']);
    same([member, typeof found?.set], [member, read.includes(member) ? 'undefined' : 'function']);
    throws('TypeError', () => Reflect.get(prototype, member));
    throws('TypeError', () => found?.get?.call({}));
  }
}

function checkOperations(name: string, { does = {}, one }: Shape): void {
  const { prototype } = interfaceOf(name);
  for (const [member, needed] of Object.entries(does)) {
    const found = own(prototype, member);
    same([member, found?.enumerable, found?.writable, found?.configurable], [member, true, true, true]);
    const operation = found?.value as (...given: unknown[]) => unknown;
    same([member, typeof operation, operation.length], [member, 'function', needed]);
    throws('TypeError', () => operation.call({}));
    if (needed > 0 && one !== undefined) throws('TypeError', () => operation.call(one()));
  }
}

function checkObject(name: string, one: object): void {
  const { read = [], set = [], on = [], does = {} } = SHAPES[name] as Shape;
  same(
    [Object.prototype.toString.call(one), Object.getPrototypeOf(one) === interfaceOf(name).prototype],
    [`[object ${name}]`, true],
  );
  for (const member of [...read, ...set, ...Object.keys(does)]) holds(member in one, `${member} in ${name}`);
  for (const event of on) {
    const handler = (): void => undefined;
    same(Reflect.get(one, `on${event}`), null);
    Reflect.set(one, `on${event}`, handler);
    same(Reflect.get(one, `on${event}`), handler);
    Reflect.set(one, `on${event}`, 'no function');
    same(Reflect.get(one, `on${event}`), null);
  }
}
