/** Reads semantic tags (SISR 1.0, W3C Recommendation 5 April 2007): literals, and a small, safe part of the script form. */

/** Values that a script can make: what JSON can hold. */
export type Meaning = string | number | boolean | null | readonly Meaning[] | { readonly [name: string]: Meaning };

export type BinaryOperator =
  '+' | '-' | '*' | '/' | '%' | '==' | '===' | '!=' | '!==' | '<' | '>' | '<=' | '>=' | '&&' | '||';

export type Script =
  | { readonly kind: 'value'; readonly value: string | number | boolean | null }
  | { readonly kind: 'name'; readonly name: string }
  | { readonly kind: 'member'; readonly of: Script; readonly name: Script }
  | { readonly kind: 'call'; readonly of: Script; readonly method: string; readonly args: readonly Script[] }
  | { readonly kind: 'object'; readonly entries: readonly { readonly name: string; readonly value: Script }[] }
  | { readonly kind: 'array'; readonly items: readonly Script[] }
  | { readonly kind: 'unary'; readonly operator: '-' | '+' | '!'; readonly of: Script }
  | { readonly kind: 'binary'; readonly operator: BinaryOperator; readonly left: Script; readonly right: Script }
  | { readonly kind: 'either'; readonly test: Script; readonly yes: Script; readonly no: Script };

export type Statement =
  | { readonly kind: 'assign'; readonly to: Script; readonly operator: '=' | '+='; readonly value: Script }
  | { readonly kind: 'do'; readonly expression: Script };

/** What a tag does. A `broken` tag does not stop words from matching; it stops them from meaning anything. */
export type Action =
  | { readonly kind: 'ignored' }
  | { readonly kind: 'literal'; readonly text: string }
  | { readonly kind: 'script'; readonly statements: readonly Statement[] }
  | { readonly kind: 'broken'; readonly detail: string };

const SCRIPT_CHARACTERS_MAX = 4_000;
const DEPTH_MAX = 40;
const FORBIDDEN_NAMES = new Set(['__proto__', 'prototype', 'constructor']);

/** Reads a tag by the grammar's tag format (SRGS 4.8, SISR 4). Tags of other formats are ignored. */
export function parseTag(format: string | null, content: string): Action {
  if (format === null) return { kind: 'ignored' };
  if (/^semantics\/1\.0(\.2006)?-literals$/.test(format)) return { kind: 'literal', text: content };
  if (!/^semantics\/1\.0(\.2006)?$/.test(format)) return { kind: 'ignored' };
  try {
    return { kind: 'script', statements: new ScriptReader(content).read() };
  } catch (fault) {
    if (!(fault instanceof ScriptFault)) throw fault;
    return { kind: 'broken', detail: fault.message };
  }
}

class ScriptFault extends Error {}

interface Lexeme {
  readonly kind: 'number' | 'string' | 'word' | 'sign' | 'end';
  readonly text: string;
}

const LEXEME =
  /\s+|\/\/[^\n]*|\/\*[\s\S]*?\*\/|(\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?)|("(?:[^"\\\n]|\\.)*"|'(?:[^'\\\n]|\\.)*')|([\p{L}_$][\p{L}\p{Nd}_$]*)|(===|!==|==|!=|<=|>=|&&|\|\||\+=|[-+*/%=<>!?:;,.()[\]{}])/uy;

function lexemes(text: string): Lexeme[] {
  if (text.length > SCRIPT_CHARACTERS_MAX) throw new ScriptFault('The tag is too long.');
  const found: Lexeme[] = [];
  const pattern = new RegExp(LEXEME.source, LEXEME.flags);
  while (pattern.lastIndex < text.length) {
    const at = pattern.lastIndex;
    const match = pattern.exec(text);
    if (match === null) throw new ScriptFault(`"${text.slice(at, at + 10)}" cannot be read.`);
    const [, number, string, word, sign] = match;
    if (number !== undefined) found.push({ kind: 'number', text: number });
    else if (string !== undefined) found.push({ kind: 'string', text: unquote(string) });
    else if (word !== undefined) found.push({ kind: 'word', text: word });
    else if (sign !== undefined) found.push({ kind: 'sign', text: sign });
  }
  return found;
}

const ESCAPES: Readonly<Record<string, string>> = { n: '\n', t: '\t', r: '\r', '\\': '\\', '"': '"', "'": "'" };

function unquote(text: string): string {
  return text.slice(1, -1).replace(/\\(.)/g, (_, character: string) => {
    const plain = ESCAPES[character];
    if (plain === undefined) throw new ScriptFault(`"\\${character}" in a string is not understood.`);
    return plain;
  });
}

/** Precedence of the binary operators, as in ECMAScript. */
const PRECEDENCE: Readonly<Record<string, number>> = {
  '||': 1,
  '&&': 2,
  '==': 3,
  '===': 3,
  '!=': 3,
  '!==': 3,
  '<': 4,
  '>': 4,
  '<=': 4,
  '>=': 4,
  '+': 5,
  '-': 5,
  '*': 6,
  '/': 6,
  '%': 6,
};

class ScriptReader {
  private readonly lexemes: readonly Lexeme[];
  private at = 0;

  constructor(text: string) {
    this.lexemes = lexemes(text);
  }

  read(): Statement[] {
    const statements: Statement[] = [];
    while (this.peek().kind !== 'end') {
      if (this.take(';')) continue;
      statements.push(this.statement());
      if (this.peek().kind !== 'end' && !this.take(';')) throw this.unexpected();
    }
    return statements;
  }

  private peek(): Lexeme {
    return this.lexemes[this.at] ?? { kind: 'end', text: 'the end of the tag' };
  }

  private take(sign: string): boolean {
    const next = this.peek();
    if (next.kind !== 'sign' || next.text !== sign) return false;
    this.at += 1;
    return true;
  }

  private expect(sign: string): void {
    if (!this.take(sign)) throw this.unexpected();
  }

  private unexpected(): ScriptFault {
    return new ScriptFault(`"${this.peek().text}" was not expected here.`);
  }

  private statement(): Statement {
    if (this.word('var')) {
      const name = this.identifier();
      this.expect('=');
      return { kind: 'assign', to: { kind: 'name', name }, operator: '=', value: this.expression(0) };
    }
    const left = this.expression(0);
    for (const operator of ['=', '+='] as const) {
      if (!this.take(operator)) continue;
      if (left.kind !== 'name' && left.kind !== 'member') throw new ScriptFault('Only names can be assigned to.');
      return { kind: 'assign', to: left, operator, value: this.expression(0) };
    }
    return { kind: 'do', expression: left };
  }

  private word(text: string): boolean {
    const next = this.peek();
    if (next.kind !== 'word' || next.text !== text) return false;
    this.at += 1;
    return true;
  }

  private identifier(): string {
    const next = this.peek();
    if (next.kind !== 'word') throw this.unexpected();
    if (FORBIDDEN_NAMES.has(next.text)) throw new ScriptFault(`The name ${next.text} is not allowed.`);
    this.at += 1;
    return next.text;
  }

  private expression(depth: number): Script {
    const test = this.binary(1, depth);
    if (!this.take('?')) return test;
    const yes = this.expression(depth + 1);
    this.expect(':');
    return { kind: 'either', test, yes, no: this.expression(depth + 1) };
  }

  private binary(precedence: number, depth: number): Script {
    let left = this.unary(depth);
    for (;;) {
      const next = this.peek();
      const own = next.kind === 'sign' ? PRECEDENCE[next.text] : undefined;
      if (own === undefined || own < precedence) return left;
      this.at += 1;
      left = { kind: 'binary', operator: next.text as BinaryOperator, left, right: this.binary(own + 1, depth) };
    }
  }

  private unary(depth: number): Script {
    if (depth > DEPTH_MAX) throw new ScriptFault('The tag is nested too deep.');
    for (const operator of ['-', '+', '!'] as const) {
      if (this.take(operator)) return { kind: 'unary', operator, of: this.unary(depth + 1) };
    }
    return this.postfix(this.primary(depth), depth);
  }

  private postfix(start: Script, depth: number): Script {
    let script = start;
    for (;;) {
      if (this.take('.')) {
        const name = this.identifier();
        if (this.take('(')) script = { kind: 'call', of: script, method: name, args: this.list(')', depth) };
        else script = { kind: 'member', of: script, name: { kind: 'value', value: name } };
      } else if (this.take('[')) {
        script = { kind: 'member', of: script, name: this.expression(depth + 1) };
        this.expect(']');
      } else return script;
    }
  }

  private list(close: string, depth: number): Script[] {
    const items: Script[] = [];
    if (this.take(close)) return items;
    do items.push(this.expression(depth + 1));
    while (this.take(','));
    this.expect(close);
    return items;
  }

  private primary(depth: number): Script {
    const next = this.peek();
    if (this.take('(')) {
      const inner = this.expression(depth + 1);
      this.expect(')');
      return inner;
    }
    if (this.take('[')) return { kind: 'array', items: this.list(']', depth) };
    if (this.take('{')) return this.object(depth);
    this.at += 1;
    if (next.kind === 'number') return { kind: 'value', value: Number(next.text) };
    if (next.kind === 'string') return { kind: 'value', value: next.text };
    this.at -= 1;
    const name = this.identifier();
    if (name === 'true' || name === 'false') return { kind: 'value', value: name === 'true' };
    if (name === 'null') return { kind: 'value', value: null };
    if (name === 'new') return this.created();
    return { kind: 'name', name };
  }

  /** `new Object()` and `new Array()`, which old grammars write. */
  private created(): Script {
    const name = this.identifier();
    if (name !== 'Object' && name !== 'Array') throw new ScriptFault(`"new ${name}" is not allowed.`);
    if (this.take('(')) this.expect(')');
    return name === 'Object' ? { kind: 'object', entries: [] } : { kind: 'array', items: [] };
  }

  private object(depth: number): Script {
    const entries: { name: string; value: Script }[] = [];
    if (this.take('}')) return { kind: 'object', entries };
    do {
      const next = this.peek();
      let name = next.text;
      if (next.kind === 'string' || next.kind === 'number') this.at += 1;
      else name = this.identifier();
      if (FORBIDDEN_NAMES.has(name)) throw new ScriptFault(`The name ${name} is not allowed.`);
      this.expect(':');
      entries.push({ name, value: this.expression(depth + 1) });
    } while (this.take(','));
    this.expect('}');
    return { kind: 'object', entries };
  }
}
