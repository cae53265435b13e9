/** Reads JSGF grammars (W3C Note 5 June 2000) into trees. Tags are skipped: a recogniser needs words and weights alone. */
import type { Result } from '../result';
import { ok, refused } from '../result';

export type JsgfNode =
  | { readonly kind: 'word'; readonly word: string }
  | { readonly kind: 'rule'; readonly name: string }
  | { readonly kind: 'sequence'; readonly items: readonly JsgfNode[] }
  /** Weights as they stand (4.3 of the note); null where none is given. */
  | { readonly kind: 'choice'; readonly items: readonly JsgfNode[]; readonly weights: readonly (number | null)[] }
  /** `[x]`, `x*` and `x+`. */
  | { readonly kind: 'optional' | 'any' | 'many'; readonly item: JsgfNode };

export interface JsgfGrammar {
  readonly rules: ReadonlyMap<string, JsgfNode>;
  readonly publicRules: readonly string[];
}

class JsgfFault extends Error {}

const CHARACTERS_MAX = 500_000;
const NESTING_MAX = 200;
/** White space, comments, quoted words, tags, weights, rule names, punctuation, words. */
const TOKEN =
  /\s+|\/\/[^\n]*|\/\*[\s\S]*?\*\/|"((?:\\.|[^"\\])*)"|\{(?:\\.|[^}\\])*\}|(\/[\d.]+(?:e[+-]?\d+)?\/)|(<[^<>\s]+>)|([=;|*+()[\]])|([^\s=;|*+<>()[\]{}/"]+)/giy;

/** The grammar in `text`, or why it is none. */
export function parseJsgf(text: string): Result<JsgfGrammar, 'bad-grammar'> {
  try {
    if (text.length > CHARACTERS_MAX) throw new JsgfFault(`it has more than ${CHARACTERS_MAX} characters`);
    return ok(new Parser(tokens(text)).grammar());
  } catch (fault) {
    if (!(fault instanceof JsgfFault)) throw fault;
    return refused('bad-grammar', `This JSGF grammar cannot be used: ${fault.message}.`);
  }
}

function tokens(text: string): readonly string[] {
  const body = text.replace(/^\uFEFF?\s*#JSGF[^;]*;/, '');
  if (body === text) throw new JsgfFault('it does not begin with "#JSGF"');
  const found: string[] = [];
  for (let at = 0; at < body.length; at = TOKEN.lastIndex) {
    TOKEN.lastIndex = at;
    const match = TOKEN.exec(body);
    if (match === null) throw new JsgfFault(`"${body.slice(at, at + 20)}" is not understood`);
    const [, quoted, weight, rule, mark, word] = match;
    if (quoted !== undefined) found.push(...quoted.split(/\s+/).filter((part) => part !== ''));
    else if (weight !== undefined) found.push(weight);
    else if (rule !== undefined) found.push(rule);
    else if (mark !== undefined) found.push(mark);
    else if (word !== undefined) found.push(word);
  }
  return found;
}

class Parser {
  readonly #tokens: readonly string[];
  #at = 0;
  #depth = 0;

  constructor(tokens: readonly string[]) {
    this.#tokens = tokens;
  }

  grammar(): JsgfGrammar {
    this.#take('grammar');
    this.#next();
    this.#take(';');
    const rules = new Map<string, JsgfNode>();
    const publicRules: string[] = [];
    while (this.#at < this.#tokens.length) {
      const isPublic = this.#peek() === 'public';
      if (isPublic) this.#at += 1;
      const token = this.#next();
      if (token === 'import') throw new JsgfFault('it imports rules from elsewhere');
      const name = ruleName(token);
      if (name === null) throw new JsgfFault(`a rule was expected, not "${token}"`);
      if (rules.has(name)) throw new JsgfFault(`<${name}> is defined twice`);
      this.#take('=');
      rules.set(name, this.#choice());
      this.#take(';');
      if (isPublic) publicRules.push(name);
    }
    if (publicRules.length === 0) throw new JsgfFault('it has no public rule');
    return { rules, publicRules };
  }

  #choice(): JsgfNode {
    this.#depth += 1;
    if (this.#depth > NESTING_MAX) throw new JsgfFault('it is nested too deeply');
    const weights = [this.#weight()];
    const items = [this.#sequence()];
    while (this.#peek() === '|') {
      this.#at += 1;
      weights.push(this.#weight());
      items.push(this.#sequence());
    }
    this.#depth -= 1;
    return items.length === 1 && items[0] !== undefined ? items[0] : { kind: 'choice', items, weights };
  }

  #weight(): number | null {
    const token = this.#peek();
    if (token === null || !isWeight(token)) return null;
    this.#at += 1;
    const weight = Number(token.slice(1, -1));
    if (!Number.isFinite(weight)) throw new JsgfFault(`${token} is no weight`);
    return weight;
  }

  #sequence(): JsgfNode {
    const items: JsgfNode[] = [];
    for (let token = this.#peek(); token !== null && !'|);]'.includes(token); token = this.#peek()) {
      items.push(this.#repeated(this.#item()));
    }
    if (items.length === 0) throw new JsgfFault('something is missing where a word was expected');
    return items.length === 1 && items[0] !== undefined ? items[0] : { kind: 'sequence', items };
  }

  #repeated(item: JsgfNode): JsgfNode {
    const mark = this.#peek();
    if (mark !== '*' && mark !== '+') return item;
    this.#at += 1;
    return this.#repeated({ kind: mark === '*' ? 'any' : 'many', item });
  }

  #item(): JsgfNode {
    const token = this.#next();
    if (token === '(' || token === '[') {
      const inner = this.#choice();
      this.#take(token === '(' ? ')' : ']');
      return token === '(' ? inner : { kind: 'optional', item: inner };
    }
    const name = ruleName(token);
    if (name !== null) return { kind: 'rule', name };
    if ('=*+'.includes(token) || isWeight(token)) throw new JsgfFault(`"${token}" was not expected`);
    return { kind: 'word', word: token };
  }

  #peek(): string | null {
    return this.#tokens[this.#at] ?? null;
  }

  #next(): string {
    const token = this.#peek();
    if (token === null) throw new JsgfFault('it ends too early');
    this.#at += 1;
    return token;
  }

  #take(wanted: string): void {
    const token = this.#next();
    if (token !== wanted) throw new JsgfFault(`"${wanted}" was expected, not "${token}"`);
  }
}

/** `/0.5/`. A word never begins with a stroke, and a stroke alone is punctuation. */
function isWeight(token: string): boolean {
  return token.length > 1 && token.startsWith('/');
}

function ruleName(token: string): string | null {
  return token.startsWith('<') && token.endsWith('>') ? token.slice(1, -1) : null;
}
