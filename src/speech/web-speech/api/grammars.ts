/** The grammars of a recognition: what may be said, as JSGF or as W3C SRGS 1.0, ABNF or XML. */
import type { Result } from '@stowcall/grammar';
import { entryRules, linkGrammar, ok, parseJsgf, readGrammar, refused } from '@stowcall/grammar';
import type { Phrases } from '../engine/phrases';
import { fixedPhrases, phraseRule, phrasesOf } from '../engine/phrases';
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

/** Everything that may be said. The recogniser hears no free speech, so nothing is a refusal. */
export function wantedPhrases(
  grammars: SpeechGrammarList,
  phrases: Iterable<SpeechRecognitionPhrase>,
): Result<readonly Phrases[], GrammarsTrouble> {
  const given = grammarPhrases(grammars);
  if (!given.ok) return given;
  // Of a phrase that is there twice the last boost counts.
  const boosts = new Map([...phrases].map(({ phrase, boost }) => [plain(phrase), boost]));
  const spoken = [...boosts].flatMap(([phrase, boost]) => (phrase !== '' && boost > 0 ? [phrase] : []));
  const all = spoken.length > 0 ? [...given.value, fixedPhrases(spoken)] : given.value;
  if (all.length > 0) return ok(all);
  return refused('nothing-to-hear', 'This recogniser hears only given phrases: add a grammar or phrases.');
}

/** The phrases of the grammars alone; none is no refusal. */
export function grammarPhrases(grammars: SpeechGrammarList): Result<readonly Phrases[], 'bad-grammar'> {
  const all: Phrases[] = [];
  for (const { src, weight } of grammars) {
    if (weight === 0) continue;
    const phrases = phrasesIn(src);
    if (!phrases.ok) return phrases;
    all.push(phrases.value);
  }
  return ok(all);
}

/** Whoever starts again uses the same texts: they need not be read again. */
const READ = new Map<string, Result<Phrases, 'bad-grammar'>>();
const READ_MAX = 100;

function phrasesIn(text: string): Result<Phrases, 'bad-grammar'> {
  const known = READ.get(text);
  if (known !== undefined) return known;
  const read = text.trimStart().startsWith('#JSGF') ? phrasesInJsgf(text) : phrasesInSrgs(text);
  if (READ.size >= READ_MAX) READ.clear();
  READ.set(text, read);
  return read;
}

function phrasesInJsgf(text: string): Result<Phrases, 'bad-grammar'> {
  if (/\bpublic\s*<[^<>]+>\s*=/.test(text)) return parseJsgf(text);
  return refused('bad-grammar', 'This JSGF grammar has no public rule.');
}

function phrasesInSrgs(text: string): Result<Phrases, 'bad-grammar'> {
  const parsed = readGrammar(text);
  if (!parsed.ok) return refused('bad-grammar', parsed.detail);
  const linked = linkGrammar(parsed.value, () => null);
  if (!linked.ok) return refused('bad-grammar', linked.detail);
  const { file } = parsed.value;
  return phrasesOf(
    linked.value,
    entryRules(parsed.value).map((name) => phraseRule({ file, name })),
  );
}

/** Words alone, in small letters: the dictionary's form. */
function plain(phrase: string): string {
  return phrase
    .toLowerCase()
    .replace(/[^\p{L}\p{Nd}'\s]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}
