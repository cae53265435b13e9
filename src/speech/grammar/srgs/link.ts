/** Joins a grammar with the grammars that it refers to, into one table of nodes that can be matched. */
import { assert } from '../assert';
import { ok, refused } from '../result';
import type { Refused, Result } from '../result';
import { referencesIn } from './check-names';
import { readGrammar } from './read-grammar';
import { parseTag } from '../sisr/parse-tag';
import type { Action } from '../sisr/parse-tag';
import { baseOf } from './srgs';
import type { Expansion, Grammar, Rule, RuleReference } from './srgs';
import { normalUri, resolveUri } from './uri';

const GRAMMARS_MAX = 100;
const NODES_MAX = 50_000;
/** SRGS appendix G. */
const MEDIA_TYPES = { abnf: /^application\/srgs(;|$)/, xml: /^application\/srgs\+xml(;|$)/ };

/** A right-hand side with its children as positions in `LinkedGrammar.nodes`. */
export type Node =
  | { readonly kind: 'token'; readonly words: readonly string[] }
  | { readonly kind: 'tag'; readonly content: string; readonly action: Action }
  | { readonly kind: 'void' }
  | { readonly kind: 'garbage' }
  /** `label` is the reference as a logical parse shows it: `name`, or `<uri#name>`. */
  | { readonly kind: 'rule'; readonly rule: number; readonly label: string }
  | { readonly kind: 'sequence'; readonly items: readonly number[] }
  | { readonly kind: 'choice'; readonly items: readonly number[]; readonly weights: readonly (number | null)[] }
  | { readonly kind: 'repeat'; readonly item: number; readonly min: number; readonly max: number | null };

export interface LinkedRule {
  readonly file: string;
  readonly name: string;
  readonly scope: 'public' | 'private';
  readonly node: number;
  /** Tags in the header of the rule's grammar: run before those of the rule (SRGS 4.12). */
  readonly globals: readonly Action[];
}

export interface LinkedGrammar {
  readonly entry: Grammar;
  /** Rules of all joined grammars. */
  readonly rules: readonly LinkedRule[];
  readonly nodes: readonly Node[];
}

/** Fetches the text of a grammar by its resolved address; null where there is none. */
export type Resolver = (address: string) => string | null;

export type LinkReason = 'bad-grammar' | 'unresolved-reference';

/** Joins `entry` with everything it refers to (SRGS 2.2.2). References are checked; nothing dangling is left. */
export function linkGrammar(entry: Grammar, resolve: Resolver): Result<LinkedGrammar, LinkReason> {
  const gathered = gather(entry, resolve);
  if (!gathered.ok) return gathered;
  return new Linker(entry, gathered.value).link();
}

/** An address as it stands once the base of its grammar is applied (SRGS 4.9). */
function basedUri(from: Grammar, uri: string): string {
  const base = baseOf(from.header);
  return base === null ? uri : resolveUri(base, uri);
}

/** Address of the document that a reference names. */
function addressOf(from: Grammar, uri: string): string {
  return normalUri(resolveUri(from.file, basedUri(from, uri)));
}

function fault(
  grammar: Grammar,
  at: { line: number; column: number },
  detail: string,
): Refused<'unresolved-reference'> {
  return refused('unresolved-reference', `${grammar.file}:${at.line}:${at.column}: ${detail}`);
}

function gather(entry: Grammar, resolve: Resolver): Result<ReadonlyMap<string, Grammar>, LinkReason> {
  const grammars = new Map<string, Grammar>([[normalUri(entry.file), entry]]);
  const waiting: Grammar[] = [entry];
  for (let from = waiting.shift(); from !== undefined; from = waiting.shift()) {
    for (const reference of from.rules.flatMap((rule) => referencesIn(rule.expansion))) {
      if (reference.uri === null) continue;
      const address = addressOf(from, reference.uri);
      if (grammars.has(address)) continue;
      if (grammars.size >= GRAMMARS_MAX) return fault(from, reference.place, 'Too many grammars refer to one another.');
      const text = resolve(address);
      if (text === null) return fault(from, reference.place, `There is no grammar at "${reference.uri}".`);
      const parsed = readGrammar(text, address);
      if (!parsed.ok) return parsed;
      grammars.set(address, parsed.value);
      waiting.push(parsed.value);
    }
  }
  return ok(grammars);
}

class Linker {
  private readonly nodes: Node[] = [];
  private readonly places = new Map<string, number>();
  private readonly order: { grammar: Grammar; rule: Rule }[] = [];
  private trouble: Refused<LinkReason> | null = null;

  constructor(
    private readonly entry: Grammar,
    private readonly grammars: ReadonlyMap<string, Grammar>,
  ) {
    for (const [address, grammar] of grammars) {
      for (const rule of grammar.rules) {
        this.places.set(`${address}#${rule.name}`, this.order.length);
        this.order.push({ grammar, rule });
      }
    }
  }

  link(): Result<LinkedGrammar, LinkReason> {
    const rules: LinkedRule[] = this.order.map(({ grammar, rule }) => ({
      file: grammar.file,
      name: rule.name,
      scope: rule.scope,
      node: this.compile(rule.expansion, grammar),
      globals: grammar.header.tags.map((tag) => parseTag(grammar.header.tagFormat, tag.content)),
    }));
    if (this.nodes.length > NODES_MAX)
      return refused('bad-grammar', `${this.entry.file}:1:1: The grammar is too large.`);
    return this.trouble ?? ok({ entry: this.entry, rules, nodes: this.nodes });
  }

  private add(node: Node): number {
    this.nodes.push(node);
    return this.nodes.length - 1;
  }

  private compile(expansion: Expansion, grammar: Grammar): number {
    switch (expansion.kind) {
      case 'token':
        return this.add({ kind: 'token', words: this.tokenWords(expansion.words, grammar) });
      case 'tag':
        return this.add({
          kind: 'tag',
          content: expansion.content,
          action: parseTag(grammar.header.tagFormat, expansion.content),
        });
      case 'special':
        if (expansion.name === 'NULL') return this.add({ kind: 'sequence', items: [] });
        return this.add({ kind: expansion.name === 'VOID' ? 'void' : 'garbage' });
      case 'reference':
        return this.reference(expansion, grammar);
      case 'sequence':
        return this.add({ kind: 'sequence', items: expansion.items.map((item) => this.compile(item, grammar)) });
      case 'choice':
        return this.add({
          kind: 'choice',
          items: expansion.alternatives.map((alternative) => this.compile(alternative.expansion, grammar)),
          weights: expansion.alternatives.map((alternative) => alternative.weight),
        });
      case 'repeat':
        return this.repeat(expansion, grammar);
      case 'language':
        return this.compile(expansion.item, grammar);
    }
  }

  /**
   * A tag takes no words, so nothing that is said tells one turn of it from three: a repeated tag counts once, as a
   * repeated $NULL does (SRGS 2.5). Of tags the Recommendation says nothing.
   */
  private repeat(expansion: Extract<Expansion, { kind: 'repeat' }>, grammar: Grammar): number {
    const item = this.compile(expansion.item, grammar);
    const isTag = expansion.item.kind === 'tag';
    const max = isTag && expansion.max !== 0 ? 1 : expansion.max;
    return this.add({ kind: 'repeat', item, min: isTag ? Math.min(expansion.min, 1) : expansion.min, max });
  }

  /** In DTMF mode "star" and "pound" are the keys * and # (SRGS appendix E). */
  private tokenWords(words: readonly string[], grammar: Grammar): readonly string[] {
    if (grammar.header.mode !== 'dtmf') return words;
    const keys = words.map((word) => (word === 'star' ? '*' : word === 'pound' ? '#' : word));
    const bad = keys.find((key) => !/^[0-9A-D*#]$/.test(key));
    if (bad !== undefined) {
      this.trouble ??= refused('bad-grammar', `${grammar.file}:1:1: "${bad}" is no key of a telephone (mode dtmf).`);
    }
    return keys;
  }

  private reference(reference: RuleReference, grammar: Grammar): number {
    const target = this.target(reference, grammar);
    if (typeof target === 'string') {
      this.trouble ??= fault(grammar, reference.place, target);
      return this.add({ kind: 'void' });
    }
    const fragment = reference.rule === null ? '' : `#${reference.rule}`;
    const label = reference.uri === null ? (reference.rule ?? '') : `<${basedUri(grammar, reference.uri)}${fragment}>`;
    return this.add({ kind: 'rule', rule: target, label });
  }

  /** Position of the rule meant, or the sentence that says why there is none. */
  private target(reference: RuleReference, from: Grammar): number | string {
    const address = reference.uri === null ? normalUri(from.file) : addressOf(from, reference.uri);
    const grammar = this.grammars.get(address);
    assert(grammar !== undefined, 'every reference was gathered');
    if (reference.mediaType !== null && !MEDIA_TYPES[grammar.form].test(reference.mediaType)) {
      const form = grammar.form === 'abnf' ? 'an ABNF' : 'an XML';
      return `"${reference.uri ?? ''}" is ${form} grammar, not ${reference.mediaType}.`;
    }
    if (grammar.header.mode !== from.header.mode) {
      return `A ${from.header.mode} grammar cannot refer to a ${grammar.header.mode} grammar.`;
    }
    const name = reference.rule ?? grammar.header.root;
    if (name === null) return `"${reference.uri ?? ''}" declares no root; name a rule after "#".`;
    const rule = grammar.rules.find((candidate) => candidate.name === name);
    if (rule === undefined) return `There is no rule $${name} in "${reference.uri ?? from.file}".`;
    if (reference.uri !== null && reference.rule !== null && rule.scope === 'private' && grammar !== from) {
      return `$${name} in "${reference.uri}" is private; make it public to refer to it.`;
    }
    const place = this.places.get(`${address}#${name}`);
    assert(place !== undefined, 'every rule has a place');
    return place;
  }
}
