/** Puts the interfaces of this package on a window in place of the browser's own, as Web IDL would have them there. */
import { SpeechGrammar, SpeechGrammarList, SpeechRecognitionPhrase, SpeechRecognitionPhraseList } from './grammars';
import { SpeechRecognition } from './recognition';
import {
  SpeechRecognitionAlternative,
  SpeechRecognitionErrorEvent,
  SpeechRecognitionEvent,
  SpeechRecognitionResult,
  SpeechRecognitionResultList,
} from './results';
import type { RecognitionService } from './service';
import { SpeechSynthesis } from './synthesis';
import {
  SpeechSynthesisErrorEvent,
  SpeechSynthesisEvent,
  SpeechSynthesisUtterance,
  SpeechSynthesisVoice,
} from './utterance';

type Class = (new (...given: never[]) => object) & { readonly prototype: object };

/** How many arguments `new` must have; null where a page may not use it. */
type Arguments = number | null;

/** A class comes after the one that it extends. */
const EVERYWHERE: Readonly<Record<string, readonly [Class, Arguments]>> = {
  SpeechGrammar: [SpeechGrammar, null],
  SpeechGrammarList: [SpeechGrammarList, 0],
  SpeechSynthesis: [SpeechSynthesis, null],
  SpeechSynthesisVoice: [SpeechSynthesisVoice, null],
  SpeechSynthesisUtterance: [SpeechSynthesisUtterance, 0],
  SpeechSynthesisEvent: [SpeechSynthesisEvent, 2],
  SpeechSynthesisErrorEvent: [SpeechSynthesisErrorEvent, 2],
};

/** The draft exposes these in secure contexts alone. */
const SECURE: typeof EVERYWHERE = {
  SpeechRecognition: [SpeechRecognition, 0],
  SpeechRecognitionAlternative: [SpeechRecognitionAlternative, null],
  SpeechRecognitionResult: [SpeechRecognitionResult, null],
  SpeechRecognitionResultList: [SpeechRecognitionResultList, null],
  SpeechRecognitionEvent: [SpeechRecognitionEvent, 2],
  SpeechRecognitionErrorEvent: [SpeechRecognitionErrorEvent, 2],
  SpeechRecognitionPhrase: [SpeechRecognitionPhrase, 1],
  SpeechRecognitionPhraseList: [SpeechRecognitionPhraseList, 0],
};

/** Web IDL: what has an index and a length is iterated as an array is. */
const INDEXED: readonly Class[] = [SpeechGrammarList, SpeechRecognitionResult, SpeechRecognitionResultList];

/** What the interfaces work with. */
export interface Engines {
  readonly service: RecognitionService;
  readonly synthesis: SpeechSynthesis;
}

/** `target` is a page's window: it gets the interfaces and `speechSynthesis`. */
export function exposeWebSpeech(
  target: object & { readonly isSecureContext: boolean },
  { service, synthesis }: Engines,
): void {
  const exposed = new Map<object, Class>();
  for (const [name, [made, needed]] of Object.entries({ ...EVERYWHERE, ...(target.isSecureContext ? SECURE : {}) })) {
    const value = interfaceObject(made, needed, made === SpeechRecognition ? service : undefined);
    shape(made, { name, length: needed ?? 0, value });
    const parent = exposed.get(Object.getPrototypeOf(made) as object);
    if (parent !== undefined) Object.setPrototypeOf(made, parent);
    exposed.set(made, value);
    Object.defineProperty(target, name, { value, writable: true, configurable: true });
  }
  Object.defineProperty(target, 'speechSynthesis', { get: () => synthesis, enumerable: true, configurable: true });
}

/** What a page calls by the interface's name. The package itself makes its objects with the class. */
function interfaceObject(made: Class, needed: Arguments, service: RecognitionService | undefined): Class {
  return new Proxy(made, {
    construct: (target, given: unknown[], asked) => {
      if (needed === null) throw new TypeError('Illegal constructor');
      if (given.length < needed) throw new TypeError(`${needed} arguments are needed, and ${given.length} were given.`);
      return Reflect.construct(target, service === undefined ? given : [service], asked) as object;
    },
  });
}

/** Members can be listed, and objects say what they are. */
function shape(made: Class, as: { readonly name: string; readonly length: number; readonly value: Class }): void {
  const { prototype } = made;
  list(made, ['length', 'name', 'prototype']);
  list(prototype, ['constructor']);
  for (const key of ['name', 'length'] as const) {
    Object.defineProperty(made, key, { value: as[key], configurable: true, enumerable: false });
  }
  define(prototype, 'constructor', as.value);
  Object.defineProperty(prototype, Symbol.toStringTag, { value: as.name, configurable: true });
  if (INDEXED.includes(made)) define(prototype, Symbol.iterator, Array.prototype[Symbol.iterator]);
}

function list(holder: object, hidden: readonly string[]): void {
  for (const name of Object.getOwnPropertyNames(holder)) {
    if (!hidden.includes(name)) Object.defineProperty(holder, name, { enumerable: true });
  }
}

function define(holder: object, key: PropertyKey, value: unknown): void {
  Object.defineProperty(holder, key, { value, writable: true, configurable: true, enumerable: false });
}
