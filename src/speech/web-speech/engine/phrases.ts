/**
 * What can be said, as rules of trees: what a linked SRGS grammar is turned into before it is compiled, and what a JSGF
 * text is read as.
 */
import type { JsgfNode, LinkedGrammar, Result } from '@stowcall/grammar';
import { minimalDepths, ok, refused } from '@stowcall/grammar';

/** A right-hand side. */
export type PhraseNode = JsgfNode;

export interface Phrases {
  readonly rules: ReadonlyMap<string, PhraseNode>;
  /** The rules at which it may be entered. */
  readonly publicRules: readonly string[];
}

const NOTHING: PhraseNode = { kind: 'rule', name: 'NULL' };
const NEVER: PhraseNode = { kind: 'rule', name: 'VOID' };
const REPEATS_MAX = 100;
const NODES_MAX = 100_000;

/** Phrases without slots, each as its words with blanks between them. */
export function fixedPhrases(lines: readonly string[]): Phrases {
  const items = lines.map((line) =>
    asOne(line.split(' ').flatMap((word): PhraseNode[] => (word === '' ? [] : [{ kind: 'word', word }]))),
  );
  const top: PhraseNode = { kind: 'choice', items, weights: items.map(() => null) };
  return { rules: new Map([['phrase', top]]), publicRules: ['phrase'] };
}

/** The name that a rule of a linked grammar has among its phrases. */
export function phraseRule({ file, name }: { readonly file: string; readonly name: string }): string {
  return `${file}#${name}`;
}

/** Rules that were written before, by their grammar: they need not be written, nor compiled, again. */
const WRITTEN = new WeakMap<LinkedGrammar, TreeWriter>();

/** The phrases of the named rules (`phraseRule`) of a linked grammar. Tags are left out: they say nothing. */
export function phrasesOf(grammar: LinkedGrammar, ruleNames: readonly string[]): Result<Phrases, 'bad-grammar'> {
  const writer = WRITTEN.get(grammar) ?? new TreeWriter(grammar);
  WRITTEN.set(grammar, writer);
  try {
    for (const name of ruleNames) writer.add(name);
    return ok({ rules: writer.rules, publicRules: [...ruleNames] });
  } catch (fault) {
    if (!(fault instanceof PhrasesFault)) throw fault;
    return refused('bad-grammar', fault.message);
  }
}

class PhrasesFault extends Error {}

class TreeWriter {
  readonly rules = new Map<string, PhraseNode>();
  readonly #grammar: LinkedGrammar;
  readonly #depths: readonly number[];
  readonly #open = new Set<string>();
  #size = 0;

  constructor(grammar: LinkedGrammar) {
    this.#grammar = grammar;
    this.#depths = minimalDepths(grammar);
  }

  add(name: string): void {
    // A rule that refers to itself is told when it is compiled.
    if (this.rules.has(name) || this.#open.has(name)) return;
    const rule = this.#grammar.rules.find((one) => phraseRule(one) === name);
    if (rule === undefined) throw new PhrasesFault(`There is no rule $${name}.`);
    if (!this.#canBeSaid(rule.node)) throw new PhrasesFault(`$${rule.name} in ${rule.file} can never be said.`);
    this.#open.add(name);
    try {
      this.rules.set(name, asOne(this.#pieces(rule.node)));
    } finally {
      this.#open.delete(name);
    }
  }

  #canBeSaid(id: number): boolean {
    return Number.isFinite(this.#depths[id] ?? Number.POSITIVE_INFINITY);
  }

  /** The pieces of a sequence that a node stands for; none where it says nothing. */
  #pieces(id: number): readonly PhraseNode[] {
    const node = this.#grammar.nodes[id];
    this.#size += 1;
    if (node === undefined || this.#size > NODES_MAX) throw new PhrasesFault('The grammar is too large.');
    switch (node.kind) {
      case 'token':
        return node.words.map((word) => ({ kind: 'word', word }));
      case 'tag':
        return [];
      case 'void':
        return [NEVER];
      case 'garbage':
        throw new PhrasesFault('$GARBAGE cannot be listened for.');
      case 'rule': {
        const rule = this.#grammar.rules[node.rule];
        if (rule === undefined) throw new PhrasesFault('A reference leads nowhere.');
        this.add(phraseRule(rule));
        return [{ kind: 'rule', name: phraseRule(rule) }];
      }
      case 'sequence':
        return node.items.flatMap((item) => this.#pieces(item));
      case 'choice':
        return this.#choice(node.items, node.weights);
      case 'repeat':
        return this.#repeat(node.item, node.min, node.max);
    }
  }

  /** Branches that can never be said are left out. Where one branch has a weight, the others weigh 1 (SRGS 2.4.1). */
  #choice(items: readonly number[], weights: readonly (number | null)[]): readonly PhraseNode[] {
    const isWeighted = weights.some((weight) => weight !== null);
    const branches = items.flatMap((item, at) =>
      this.#canBeSaid(item) ? [{ pieces: this.#pieces(item), weight: isWeighted ? (weights[at] ?? 1) : null }] : [],
    );
    const [first] = branches;
    if (branches.length === 1 && first !== undefined) return first.pieces;
    return [
      {
        kind: 'choice',
        items: branches.map(({ pieces }) => asOne(pieces)),
        weights: branches.map(({ weight }) => weight),
      },
    ];
  }

  /** Bounds are written out: `x<1-3>` as `x [x [x]]`. */
  #repeat(id: number, min: number, max: number | null): readonly PhraseNode[] {
    if (max === 0 || !this.#canBeSaid(id)) return [];
    if (min > REPEATS_MAX || (max ?? 0) > REPEATS_MAX) {
      throw new PhrasesFault(`The recogniser repeats ${REPEATS_MAX} times at most.`);
    }
    const pieces = this.#pieces(id);
    if (pieces.length === 0) return [];
    const item = asOne(pieces);
    if (max === null) {
      if (min === 0) return [{ kind: 'any', item }];
      return [...Array.from({ length: min - 1 }, () => item), { kind: 'many', item }];
    }
    let more: PhraseNode | null = null;
    for (let turn = min; turn < max; turn += 1) {
      more = { kind: 'optional', item: asOne(more === null ? pieces : [...pieces, more]) };
    }
    return [...Array.from({ length: min }, () => item), ...(more === null ? [] : [more])];
  }
}

function asOne(pieces: readonly PhraseNode[]): PhraseNode {
  const [first = NOTHING] = pieces;
  return pieces.length < 2 ? first : { kind: 'sequence', items: pieces };
}
