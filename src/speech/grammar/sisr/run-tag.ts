/** Runs semantic tags (SISR 1.0) over one matched rule, without eval and within bounds. */
import { ok, refused } from '../result';
import type { Result } from '../result';
import type { Action, BinaryOperator, Meaning, Script, Statement } from './parse-tag';

/** What was matched inside a rule, in the order it was said. */
export type Step =
  | { readonly kind: 'words'; readonly words: readonly string[] }
  | { readonly kind: 'tag'; readonly content: string; readonly action: Action }
  | {
      readonly kind: 'rule';
      readonly name: string;
      readonly meaning: Result<Meaning, 'no-meaning'>;
      readonly text: string;
    };

const STRING_MAX = 10_000;
const ITEMS_MAX = 1_000;
const DEPTH_MAX = 20;

class RunFault extends Error {}

type Value = string | number | boolean | null | undefined | Value[] | { [name: string]: Value };

/** True for what has members by name: an object, and no list. */
function isObject(value: Value): value is { [name: string]: Value } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/**
 * The meaning of a matched rule. `globals` are the tags of the header. Where no tag of the rule was met, it is the
 * meaning of the rule said last within it, or else its words (SISR 1.0, default assignment).
 * Refusal `no-meaning`: a tag is wrong for what was matched.
 */
export function meaningOf(
  steps: readonly Step[],
  text: string,
  globals: readonly Action[] = [],
): Result<Meaning, 'no-meaning'> {
  try {
    const run = new Run(text);
    run.prepare(globals);
    return ok(run.all(steps));
  } catch (fault) {
    if (!(fault instanceof RunFault)) throw fault;
    return refused('no-meaning', fault.message);
  }
}

class Run {
  private readonly scope: { [name: string]: Value } = Object.create(null) as { [name: string]: Value };
  private readonly rules: { [name: string]: Value } = Object.create(null) as { [name: string]: Value };
  private readonly texts: { [name: string]: Value } = Object.create(null) as { [name: string]: Value };
  private latest: { value: Value; text: string } | null = null;
  private touched = false;

  constructor(private readonly text: string) {
    this.scope['out'] = {};
  }

  /** Runs the tags of the header: what they set can be used in every rule, and is no meaning by itself. */
  prepare(globals: readonly Action[]): void {
    for (const action of globals) this.act(action);
    this.touched = false;
    this.scope['out'] = {};
  }

  all(steps: readonly Step[]): Meaning {
    for (const step of steps) {
      if (step.kind === 'rule') this.took(step);
      else if (step.kind === 'tag') this.act(step.action);
    }
    const out = this.touched ? this.scope['out'] : this.latest === null ? this.text : this.latest.value;
    return settle(out, { left: ITEMS_MAX }, 0);
  }

  private took(step: Extract<Step, { kind: 'rule' }>): void {
    if (!step.meaning.ok) throw new RunFault(step.meaning.detail);
    // Copied, so that changing `out` cannot reach back into the rule it came from.
    const value = copy(step.meaning.value);
    this.rules[step.name] = value;
    this.texts[step.name] = { text: step.text };
    this.latest = { value, text: step.text };
  }

  private act(action: Action): void {
    switch (action.kind) {
      case 'ignored':
        return;
      case 'broken':
        throw new RunFault(action.detail);
      case 'literal':
        this.touched = true;
        this.scope['out'] = action.text;
        return;
      case 'script':
        for (const statement of action.statements) this.statement(statement);
    }
  }

  private statement(statement: Statement): void {
    this.touched = true;
    if (statement.kind === 'do') {
      this.value(statement.expression);
      return;
    }
    const added = this.value(statement.value);
    const value = statement.operator === '=' ? added : plus(this.value(statement.to), added);
    this.assign(statement.to, value);
  }

  private assign(to: Script, value: Value): void {
    if (to.kind === 'name') {
      if (to.name === 'rules' || to.name === 'meta') throw new RunFault(`"${to.name}" cannot be assigned to.`);
      this.scope[to.name] = value;
      return;
    }
    if (to.kind !== 'member') throw new RunFault('Only names can be assigned to.');
    const owner = this.value(to.of);
    const name = this.key(to.name);
    if (owner === this.rules || owner === this.texts || !isObject(owner)) {
      throw new RunFault(`".${name}" can only be set on an object.`);
    }
    if (Object.keys(owner).length > ITEMS_MAX) throw new RunFault('The meaning grew too large.');
    owner[name] = value;
  }

  private key(script: Script): string {
    const name = this.value(script);
    if (typeof name !== 'string' && typeof name !== 'number') throw new RunFault('A name must be a string.');
    if (['__proto__', 'prototype', 'constructor'].includes(String(name)))
      throw new RunFault(`"${name}" is not allowed.`);
    return String(name);
  }

  private value(script: Script): Value {
    switch (script.kind) {
      case 'value':
        return script.value;
      case 'name':
        return this.named(script.name);
      case 'member':
        return this.member(script.of, this.key(script.name));
      case 'call':
        return this.call(script);
      case 'object':
        return Object.fromEntries(script.entries.map((entry) => [entry.name, this.value(entry.value)]));
      case 'array':
        return script.items.map((item) => this.value(item));
      case 'unary':
        if (script.operator === '!') return !truth(this.value(script.of));
        return (script.operator === '-' ? -1 : 1) * number(this.value(script.of));
      case 'binary':
        return this.binary(script.operator, script.left, script.right);
      case 'either':
        return truth(this.value(script.test)) ? this.value(script.yes) : this.value(script.no);
    }
  }

  private named(name: string): Value {
    if (name === 'rules') return this.rules;
    if (name === 'meta') return this.texts;
    if (name === 'undefined') return undefined;
    if (!(name in this.scope)) throw new RunFault(`"${name}" has no value here.`);
    return this.scope[name];
  }

  private member(of: Script, name: string): Value {
    const owner = this.value(of);
    if (typeof owner === 'string' && name === 'length') return owner.length;
    if (Array.isArray(owner)) return name === 'length' ? owner.length : owner[Number(name)];
    if (!isObject(owner)) throw new RunFault(`".${name}" has no value here.`);
    return Object.hasOwn(owner, name) ? owner[name] : undefined;
  }

  /** `rules.latest()`, `meta.latest()`, `meta.current()` (SISR 1.0 section 6), and `push` on a list. */
  private call(script: Extract<Script, { kind: 'call' }>): Value {
    const owner = this.value(script.of);
    if (owner === this.rules && script.method === 'latest') return this.latest?.value;
    if (owner === this.texts && script.method === 'latest') return { text: this.latest?.text ?? '' };
    if (owner === this.texts && script.method === 'current') return { text: this.text };
    if (Array.isArray(owner) && script.method === 'push') {
      if (owner.length + script.args.length > ITEMS_MAX) throw new RunFault('The meaning grew too large.');
      owner.push(...script.args.map((item) => this.value(item)));
      return owner.length;
    }
    throw new RunFault(`"${script.method}()" is not known here.`);
  }

  private binary(operator: BinaryOperator, left: Script, right: Script): Value {
    const a = this.value(left);
    if (operator === '&&') return truth(a) ? this.value(right) : a;
    if (operator === '||') return truth(a) ? a : this.value(right);
    const b = this.value(right);
    switch (operator) {
      case '+':
        return plus(a, b);
      case '-':
        return number(a) - number(b);
      case '*':
        return number(a) * number(b);
      case '/':
        return number(a) / number(b);
      case '%':
        return number(a) % number(b);
      case '==':
      case '===':
        return a === b;
      case '!=':
      case '!==':
        return a !== b;
      default:
        return compare(operator, a, b);
    }
  }
}

function compare(operator: BinaryOperator, a: Value, b: Value): boolean {
  const [x, y] = typeof a === 'string' && typeof b === 'string' ? [a, b] : [number(a), number(b)];
  if (operator === '<') return x < y;
  if (operator === '>') return x > y;
  return operator === '<=' ? x <= y : x >= y;
}

function truth(value: Value): boolean {
  return Boolean(value);
}

function number(value: Value): number {
  if (typeof value === 'number') return value;
  if (typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value))) return Number(value);
  throw new RunFault('A number was expected.');
}

function plus(a: Value, b: Value): Value {
  if (typeof a === 'number' && typeof b === 'number') return a + b;
  if ((typeof a === 'string' || typeof a === 'number') && (typeof b === 'string' || typeof b === 'number')) {
    const text = `${a}${b}`;
    if (text.length > STRING_MAX) throw new RunFault('The meaning grew too large.');
    return text;
  }
  throw new RunFault('Only numbers and strings can be added.');
}

function copy(meaning: Meaning): Value {
  if (typeof meaning !== 'object' || meaning === null) return meaning;
  if (Array.isArray(meaning)) return (meaning as readonly Meaning[]).map(copy);
  return Object.fromEntries(Object.entries(meaning).map(([name, value]) => [name, copy(value)]));
}

/** The value as JSON can hold it. Refused: an unset part, a number that is not finite, too many parts or levels. */
function settle(value: Value, budget: { left: number }, depth: number): Meaning {
  budget.left -= 1;
  if (depth > DEPTH_MAX || budget.left < 0) throw new RunFault('The meaning grew too large.');
  if (value === undefined) throw new RunFault('A part of the meaning was never set.');
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new RunFault('A number in the meaning is not finite.');
  // JSON writes -0 as 0, and the value must be what is written.
  if (value === 0) return 0;
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((item) => settle(item, budget, depth + 1));
  return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, settle(item, budget, depth + 1)]));
}
