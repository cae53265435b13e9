/** Writes rules as one JSGF grammar (W3C Note 5 June 2000), with or without a phone loop as filler model beside them. */
import { ok, refused } from '../result';
import type { Result } from '../result';
import { minimalDepths } from '../srgs/derivation-depth';
import type { LinkedGrammar } from '../srgs/link';
import { ruleIndex } from '../srgs/reachable-rules';

/** The filler model: any string of phones, each of which the recogniser knows as a word. It takes what is no command. */
export interface PhoneLoop {
  readonly phones: readonly string[];
  /** Weight of the loop against 1 for the commands. A weight that underflows in the engine removes the loop. */
  readonly weight: number;
  readonly wordOf: (phone: string) => string;
}

export interface JsgfOptions {
  readonly loop?: PhoneLoop | null;
}

export interface Jsgf {
  readonly jsgf: string;
  /** Every word of the rules, sorted, without the words of the loop: each needs a pronunciation. */
  readonly words: readonly string[];
}

export type JsgfReason = 'unknown-rule' | 'recursive-rule' | 'unspeakable' | 'bad-word' | 'too-large';

const CHARACTERS_MAX = 500_000;
const REPEATS_MAX = 100;

/** One recogniser grammar for exactly the named rules of the entry grammar; only what they reach is written. */
export function makeJsgf(
  grammar: LinkedGrammar,
  ruleNames: readonly string[],
  options: JsgfOptions = {},
): Result<Jsgf, JsgfReason> {
  try {
    return ok(new Writer(grammar, options.loop ?? null).write(ruleNames));
  } catch (fault) {
    if (!(fault instanceof JsgfFault)) throw fault;
    return refused(fault.reason, fault.message);
  }
}

class JsgfFault extends Error {
  constructor(
    readonly reason: JsgfReason,
    message: string,
  ) {
    super(message);
  }
}

class Writer {
  private readonly depths: readonly number[];
  private readonly words = new Set<string>();
  private readonly written = new Map<number, string>();
  private readonly open = new Set<number>();
  private readonly lines: string[] = [];
  private size = 0;

  constructor(
    private readonly grammar: LinkedGrammar,
    private readonly loop: PhoneLoop | null,
  ) {
    this.depths = minimalDepths(grammar);
  }

  write(ruleNames: readonly string[]): Jsgf {
    const parts = ruleNames.map((name) => {
      const index = ruleIndex(this.grammar, name);
      if (index < 0) throw new JsgfFault('unknown-rule', `There is no rule $${name} in ${this.grammar.entry.file}.`);
      return this.rule(index);
    });
    const commands = parts.length === 0 ? '<VOID>' : parts.join(' | ');
    const top = this.loop === null ? commands : `/1.0/ <command> | /${weight(this.loop.weight)}/ <other>`;
    const head = ['#JSGF V1.0;', 'grammar commands;', `public <utterance> = ${top};`];
    if (this.loop !== null) head.push(`<command> = ${commands};`, ...loopLines(this.loop));
    return { jsgf: [...head, ...this.lines, ''].join('\n'), words: [...this.words].sort() };
  }

  private rule(index: number): string {
    const known = this.written.get(index);
    if (known !== undefined) return known;
    const rule = this.grammar.rules[index];
    if (rule === undefined) throw new JsgfFault('unknown-rule', 'A reference leads nowhere.');
    if (this.open.has(index)) {
      throw new JsgfFault('recursive-rule', `$${rule.name} in ${rule.file} refers to itself; the recogniser cannot.`);
    }
    if (!this.canBeSaid(rule.node))
      throw new JsgfFault('unspeakable', `$${rule.name} in ${rule.file} can never be said.`);
    this.open.add(index);
    const body = this.node(rule.node);
    this.open.delete(index);
    const name = `<r${index}_${rule.name.replace(/[^A-Za-z0-9]/g, '_')}>`;
    this.line(`${name} = ${body};`);
    this.written.set(index, name);
    return name;
  }

  private line(text: string): void {
    this.size += text.length;
    if (this.size > CHARACTERS_MAX) throw new JsgfFault('too-large', 'The grammar is too large for the recogniser.');
    this.lines.push(text);
  }

  private canBeSaid(id: number): boolean {
    return Number.isFinite(this.depths[id] ?? Number.POSITIVE_INFINITY);
  }

  private node(id: number): string {
    const node = this.grammar.nodes[id];
    if (node === undefined) throw new JsgfFault('unknown-rule', 'A reference leads nowhere.');
    switch (node.kind) {
      case 'token':
        return node.words.map((word) => this.word(word)).join(' ');
      case 'tag':
        return '<NULL>';
      case 'void':
        return '<VOID>';
      case 'garbage':
        if (this.loop === null) throw new JsgfFault('unspeakable', '$GARBAGE needs the phone loop.');
        return '[<other>]';
      case 'rule':
        return this.rule(node.rule);
      case 'sequence': {
        const items = node.items.map((item) => this.node(item)).filter((text) => text !== '<NULL>');
        return items.length === 0 ? '<NULL>' : items.join(' ');
      }
      case 'choice':
        return this.choice(node.items, node.weights);
      case 'repeat':
        return this.repeat(node.item, node.min, node.max);
    }
  }

  /** Branches that can never be said are left out. Where one branch has a weight, the others weigh 1 (SRGS 2.4.1). */
  private choice(items: readonly number[], weights: readonly (number | null)[]): string {
    const weighted = weights.some((one) => one !== null);
    const branches = items.flatMap((item, at) => {
      if (!this.canBeSaid(item)) return [];
      const text = this.node(item);
      return [weighted ? `/${weight(weights[at] ?? 1)}/ ${text}` : text];
    });
    const [first] = branches;
    return branches.length === 1 && first !== undefined && !weighted ? first : `(${branches.join(' | ')})`;
  }

  /** JSGF counts only "*" and "+": bounds are written out, `x<1-3>` as `x [x [x]]`. */
  private repeat(item: number, min: number, max: number | null): string {
    if (max === 0 || !this.canBeSaid(item)) return '<NULL>';
    if (min > REPEATS_MAX || (max ?? 0) > REPEATS_MAX) {
      throw new JsgfFault('too-large', `The recogniser repeats ${REPEATS_MAX} times at most.`);
    }
    const text = this.node(item);
    if (text === '<NULL>') return text;
    const one = /^[a-z']+$|^<[^<>]*>$/i.test(text) ? text : `(${text})`;
    if (max === null)
      return min === 0 ? `${one}*` : [...Array.from({ length: min - 1 }, () => one), `${one}+`].join(' ');
    let optional = '';
    for (let more = min; more < max; more += 1) optional = optional === '' ? `[${text}]` : `[${text} ${optional}]`;
    this.size += one.length * (max + 1);
    if (this.size > CHARACTERS_MAX) throw new JsgfFault('too-large', 'The grammar is too large for the recogniser.');
    return [...Array.from({ length: min }, () => one), optional].filter((part) => part !== '').join(' ');
  }

  private word(word: string): string {
    if (!/^[\p{L}\p{M}\p{Nd}][\p{L}\p{M}\p{Nd}'_.-]*$/u.test(word)) {
      throw new JsgfFault('bad-word', `"${word}" cannot be written in the recogniser's grammar.`);
    }
    this.words.add(word);
    return word;
  }
}

/** A decimal number; JavaScript writes the smallest ones with an exponent, which the engine reads too. */
function weight(value: number): string {
  const text = String(value);
  return /^\d+$/.test(text) ? `${text}.0` : text;
}

function loopLines(loop: PhoneLoop): string[] {
  return ['<other> = <phone>+;', `<phone> = ${loop.phones.map(loop.wordOf).join(' | ')};`];
}
