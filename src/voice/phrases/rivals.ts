/**
 * Rivals: what a command with a number in it must not be better said as. They are the command's own rules with longer
 * numbers in them, so that a new command needs no entry here. Measured on recorded people: of 114 number strings that
 * are no lengths 50 were heard as lengths ("fifty six sixty nine" as "fifty six feet sixty nine inch") until such strings
 * were known; and of 40 commands with more figures than are legal, in two made voices, 11 were heard as legal ones.
 */
import { assert } from '../../domain/assert';
import { parseAbnf } from '@stowcall/grammar';
import type { PhraseNode, Phrases } from '@stowcall/web-speech/core';
import { phraseRule } from '@stowcall/web-speech/core';

/** What stands in the place of a rule where a rival is made of a command. */
export interface Rival {
  readonly rule: string;
  /** Words that no such rival has: among other words they fit into any sound. */
  readonly without: ReadonlySet<string>;
}

const PREFIX = 'rival.';
const RARE = 'rare';

/**
 * What the headers of the grammars declare: `meta "rival.NAME" is "OTHER"` for rules of that grammar, and
 * `meta "rare" is "WORDS"` for what is left out of them.
 */
export function rivalsIn(texts: ReadonlyMap<string, string>): ReadonlyMap<string, Rival> {
  const rivals = new Map<string, Rival>();
  for (const [file, text] of texts) {
    const parsed = parseAbnf(file, text);
    // Whatever is wrong with a grammar is told when it is linked.
    if (!parsed.ok) continue;
    const { metas } = parsed.value.header;
    const rare = metas.filter(({ name }) => name === RARE).flatMap(({ content }) => content.split(/\s+/));
    for (const { name, content } of metas) {
      if (!name.startsWith(PREFIX)) continue;
      const rule = phraseRule({ file, name: content });
      rivals.set(phraseRule({ file, name: name.slice(PREFIX.length) }), { rule, without: new Set(rare) });
    }
  }
  return rivals;
}

/** The rivals of these rules, as phrases; null where none of them has a number in it. */
export function rivalsOf(phrases: Phrases, rivals: ReadonlyMap<string, Rival>): Phrases | null {
  const maker = new RivalMaker(phrases, rivals);
  const items = phrases.publicRules.flatMap((name) => maker.rival({ kind: 'rule', name }) ?? []);
  if (items.length === 0) return null;
  const top: PhraseNode = { kind: 'choice', items, weights: items.map(() => null) };
  return { rules: new Map([...phrases.rules, ['rivals', top]]), publicRules: ['rivals'] };
}

class RivalMaker {
  readonly #phrases: Phrases;
  readonly #rivals: ReadonlyMap<string, Rival>;

  constructor(phrases: Phrases, rivals: ReadonlyMap<string, Rival>) {
    this.#phrases = phrases;
    this.#rivals = rivals;
  }

  /** The node with its numbers replaced; null where there is none in it. Of several branches those with one are left. */
  rival(node: PhraseNode): PhraseNode | null {
    switch (node.kind) {
      case 'word':
        return null;
      case 'rule': {
        const rival = this.#rivals.get(node.name);
        if (rival !== undefined) return this.#without(this.#body(rival.rule), rival.without);
        return isEmpty(node.name) ? null : this.rival(this.#body(node.name));
      }
      case 'sequence': {
        const items = node.items.map((item) => this.rival(item));
        if (items.every((item) => item === null)) return null;
        return { kind: 'sequence', items: node.items.map((item, at) => items[at] ?? item) };
      }
      case 'choice':
        return choiceOf(node, (item) => this.rival(item));
      case 'optional':
      case 'any':
      case 'many': {
        const item = this.rival(node.item);
        return item === null ? null : { kind: node.kind, item };
      }
    }
  }

  /** The node without phrases that have one of these words; null where none is left. */
  #without(node: PhraseNode, words: ReadonlySet<string>): PhraseNode | null {
    switch (node.kind) {
      case 'word':
        return words.has(node.word) ? null : node;
      case 'rule':
        return isEmpty(node.name) ? node : this.#without(this.#body(node.name), words);
      case 'sequence': {
        const items = node.items.flatMap((item) => this.#without(item, words) ?? []);
        return items.length < node.items.length ? null : { kind: 'sequence', items };
      }
      case 'choice':
        return choiceOf(node, (item) => this.#without(item, words));
      case 'optional':
      case 'any':
      case 'many': {
        const item = this.#without(node.item, words);
        if (item !== null) return { kind: node.kind, item };
        return node.kind === 'many' ? null : { kind: 'rule', name: 'NULL' };
      }
    }
  }

  #body(rule: string): PhraseNode {
    const body = this.#phrases.rules.get(rule);
    assert(body !== undefined, `$${rule} is among the phrases`);
    return body;
  }
}

/** `$NULL` and `$VOID`. */
function isEmpty(name: string): boolean {
  return name === 'NULL' || name === 'VOID';
}

/** The branches of which something is left, each with its weight; null where that is none. */
function choiceOf(
  { items, weights }: Extract<PhraseNode, { kind: 'choice' }>,
  left: (item: PhraseNode) => PhraseNode | null,
): PhraseNode | null {
  const branches = items.flatMap((item, at) => {
    const rest = left(item);
    return rest === null ? [] : [{ rest, weight: weights[at] ?? null }];
  });
  if (branches.length === 0) return null;
  return { kind: 'choice', items: branches.map(({ rest }) => rest), weights: branches.map(({ weight }) => weight) };
}
