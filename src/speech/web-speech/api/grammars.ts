/** The grammars of a recognition: what may be said, as JSGF or as W3C SRGS 1.0, ABNF or XML. */
import { entryRules, linkGrammar, makeJsgf, ok, readGrammar, refused } from '@stowcall/grammar';
import type { Result } from '@stowcall/grammar';
import { attribute, defineAttributes, float, required, unsignedLong } from './web-idl';

export class SpeechGrammar {
  declare src: string;
  /** 0 to 1; a grammar of weight 0 is not listened for. */
  declare weight: number;

  static {
    defineAttributes(this, { src: attribute('', String), weight: attribute(1, float) });
  }

  constructor(src: string, weight: number) {
    this.src = src;
    this.weight = weight;
  }
}

export class SpeechGrammarList {
  readonly [index: number]: SpeechGrammar;
  readonly #grammars: SpeechGrammar[] = [];

  get length(): number {
    return this.#grammars.length;
  }

  item(index: number): SpeechGrammar | null {
    return this.#grammars[unsignedLong(index)] ?? null;
  }

  /** `text` is JSGF, or SRGS in its ABNF or XML form: it begins with `#JSGF`, `#ABNF` or `<`. */
  addFromString(text: string, weight = 1): void {
    required(text, 'The text of the grammar');
    if (!(weight >= 0 && weight <= 1)) throw new DOMException('A weight lies between 0 and 1.', 'SyntaxError');
    const grammar = new SpeechGrammar(text, weight);
    Object.defineProperty(this, this.#grammars.length, { value: grammar, enumerable: true });
    this.#grammars.push(grammar);
  }

  /** A `data:` address, whose text is taken at once. Nothing is ever fetched: any other is a `NotSupportedError`. */
  addFromUri(src: string, weight = 1): void {
    const text = /^data:[^,]*,(.*)$/s.exec(required(src, 'The address of the grammar'))?.[1];
    if (text === undefined || /^data:[^,]*;base64,/.test(src)) {
      throw new DOMException('No grammar is fetched: give its text, or a data: address of it.', 'NotSupportedError');
    }
    this.addFromString(decodeURIComponent(text), weight);
  }

  *[Symbol.iterator](): Generator<SpeechGrammar> {
    yield* this.#grammars;
  }
}

export class SpeechRecognitionPhrase {
  readonly #phrase: string;
  readonly #boost: number;

  constructor(phrase: string, boost = 1) {
    if (!(boost >= 0 && boost <= 10)) throw new DOMException('A boost lies between 0 and 10.', 'SyntaxError');
    this.#phrase = String(required(phrase, 'The phrase'));
    this.#boost = boost;
  }

  get phrase(): string {
    return this.#phrase;
  }
  get boost(): number {
    return this.#boost;
  }
}

export class SpeechRecognitionPhraseList {
  readonly #phrases: SpeechRecognitionPhrase[];

  constructor(phrases: readonly SpeechRecognitionPhrase[] = []) {
    this.#phrases = [...phrases];
  }

  get length(): number {
    return this.#phrases.length;
  }

  /** Throws a RangeError where there is none. */
  item(index: number): SpeechRecognitionPhrase {
    const found = this.#phrases[index];
    if (found === undefined) throw new RangeError('There is no such phrase.');
    return found;
  }

  addItem(item: SpeechRecognitionPhrase): void {
    this.#phrases.push(item);
  }

  removeItem(index: number): void {
    this.item(index);
    this.#phrases.splice(index, 1);
  }

  *[Symbol.iterator](): Generator<SpeechRecognitionPhrase> {
    yield* this.#phrases;
  }
}

/** What an attribute of grammars takes. */
export function grammarList(value: unknown): SpeechGrammarList {
  if (value instanceof SpeechGrammarList) return value;
  throw new TypeError('These are no grammars.');
}

/** What the attribute of phrases takes: an array is copied, so that a page's own may change. */
export function phraseArray(value: unknown): SpeechRecognitionPhraseList | SpeechRecognitionPhrase[] {
  if (value instanceof SpeechRecognitionPhraseList) return value;
  return Array.from(value as Iterable<unknown>, (phrase) => {
    if (phrase instanceof SpeechRecognitionPhrase) return phrase;
    throw new TypeError('This is no phrase.');
  });
}

export type GrammarsTrouble = 'nothing-to-hear' | 'bad-grammar';

/** Everything that may be said, as JSGF texts. The recogniser hears no free speech, so nothing is a refusal. */
export function jsgfTexts(
  grammars: SpeechGrammarList,
  phrases: Iterable<SpeechRecognitionPhrase>,
): Result<readonly string[], GrammarsTrouble> {
  const given = grammarTexts(grammars);
  if (!given.ok) return given;
  const texts = [...given.value];
  // Of a phrase that is there twice the last boost counts.
  const boosts = new Map([...phrases].map(({ phrase, boost }) => [plain(phrase), boost]));
  const spoken = [...boosts].flatMap(([phrase, boost]) => (phrase !== '' && boost > 0 ? [phrase] : []));
  if (spoken.length > 0) texts.push(`#JSGF V1.0; grammar phrases; public <phrase> = ${spoken.join(' | ')};`);
  if (texts.length > 0) return ok(texts);
  return refused('nothing-to-hear', 'This recogniser hears only given phrases: add a grammar or phrases.');
}

/** The grammars alone, as JSGF texts; none is no refusal. */
export function grammarTexts(grammars: SpeechGrammarList): Result<readonly string[], 'bad-grammar'> {
  const texts: string[] = [];
  for (const { src, weight } of grammars) {
    if (weight === 0) continue;
    const text = jsgfOf(src);
    if (!text.ok) return text;
    texts.push(text.value);
  }
  return ok(texts);
}

function jsgfOf(text: string): Result<string, 'bad-grammar'> {
  if (text.trimStart().startsWith('#JSGF')) {
    if (/\bpublic\s*<[^<>]+>\s*=/.test(text)) return ok(text);
    return refused('bad-grammar', 'This JSGF grammar has no public rule.');
  }
  const parsed = readGrammar(text);
  if (!parsed.ok) return refused('bad-grammar', parsed.detail);
  const linked = linkGrammar(parsed.value, () => null);
  if (!linked.ok) return refused('bad-grammar', linked.detail);
  const made = makeJsgf(linked.value, entryRules(parsed.value));
  return made.ok ? ok(made.value.jsgf) : refused('bad-grammar', made.detail);
}

/** Words alone, in small letters: the dictionary's form. */
function plain(phrase: string): string {
  return phrase
    .toLowerCase()
    .replace(/[^\p{L}\p{Nd}'\s]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}
