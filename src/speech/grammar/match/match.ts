/** Matches words against a rule: the logical parse (SRGS appendix H) and the meaning (SISR 1.0). */
import type { Result } from '../result';
import { Chart, TooComplex } from './chart';
import type { LinkedGrammar, Node } from '../srgs/link';
import type { Meaning } from '../sisr/parse-tag';
import { meaningOf } from '../sisr/run-tag';
import type { Step } from '../sisr/run-tag';

/** No phrase of a sensible grammar is longer; a longer utterance matches nothing. */
const WORDS_MAX = 200;
/** How many different readings of one span of words are kept. */
const READINGS_MAX = 8;
const STEPS_MAX = 200_000;
const DEPTH_MAX = 1_500;

export interface Reading {
  /** Logical parse, such as `$main["New",$state["York"]]`. */
  readonly parse: string;
  readonly meaning: Result<Meaning, 'no-meaning'>;
}

export interface Match extends Reading {
  /** All readings that differ (see `Distinction`), in the order of the grammar; more than one is an ambiguity. */
  readonly readings: readonly Reading[];
  /** True where there were so many readings that some were dropped: the meaning is then not to be relied on. */
  readonly overflown: boolean;
}

/**
 * When two ways to read the same words count as two: when they mean different things, or already when their
 * logical parses differ (a conformance check asks for one parse of several).
 */
export type Distinction = 'meaning' | 'parse';

/** Matches one utterance against several rules and shares the work between them. */
export class Matcher {
  private readonly chart: Chart;

  constructor(
    private readonly grammar: LinkedGrammar,
    private readonly words: readonly string[],
    private readonly distinction: Distinction = 'meaning',
  ) {
    this.chart = new Chart(grammar, words);
  }

  match(name: string): Match | null {
    const index = this.grammar.rules.findIndex((rule) => rule.name === name && rule.file === this.grammar.entry.file);
    const rule = this.grammar.rules[index];
    if (rule === undefined || this.words.length > WORDS_MAX) return null;
    try {
      if (!this.chart.ends(rule.node, 0).includes(this.words.length)) return null;
      const { grammar, words, chart, distinction } = this;
      const deriver = new Deriver({ grammar, words, chart, distinction });
      const found = deriver.rule({ rule: index, label: name }, { from: 0, to: this.words.length });
      const readings = found.map((one) => ({ parse: one.parse, meaning: one.meaning }));
      const [first] = readings;
      return first === undefined ? null : { ...first, readings, overflown: deriver.overflown };
    } catch (fault) {
      if (fault instanceof TooComplex || fault instanceof RangeError) return null;
      throw fault;
    }
  }
}

/** A span of the words: from a position up to another. */
interface Span {
  readonly from: number;
  readonly to: number;
}

/** One way to read a span of words: what the tags see, and how a logical parse shows it. */
interface Derivation {
  readonly steps: readonly Step[];
  readonly parse: readonly string[];
  /** Equal keys: no tag can tell the difference. */
  readonly key: string;
}

interface RuleReading extends Reading {
  readonly key: string;
}

const EMPTY: Derivation = { steps: [], parse: [], key: '' };

interface Search {
  readonly grammar: LinkedGrammar;
  readonly words: readonly string[];
  readonly chart: Chart;
  readonly distinction: Distinction;
}

/** Enumerates derivations. The chart has already said which spans can be derived, so that no branch is tried in vain. */
class Deriver {
  overflown = false;
  private steps = 0;
  private readonly rules = new Map<string, readonly RuleReading[]>();
  /** Rules being read now, with their depth: one met again over the same words adds nothing new. */
  private readonly open = new Map<string, number>();
  /** Depth of the outermost rule that was met again: what is read inside it is incomplete, and not remembered. */
  private cut = Number.POSITIVE_INFINITY;

  constructor(private readonly search: Search) {}

  rule({ rule: index, label }: { readonly rule: number; readonly label: string }, span: Span): readonly RuleReading[] {
    const rule = this.search.grammar.rules[index];
    if (rule === undefined) return [];
    const place = `${index}:${label}:${span.from}:${span.to}`;
    const known = this.rules.get(place);
    if (known !== undefined) return known;
    const opened = this.open.get(place);
    if (opened !== undefined) {
      this.cut = Math.min(this.cut, opened);
      return [];
    }
    const depth = this.open.size;
    this.open.set(place, depth);
    const text = this.textOf(span);
    const readings = new Map<string, RuleReading>();
    for (const derivation of this.derive(rule.node, span, 0)) {
      const meaning = meaningOf(derivation.steps, text, rule.globals);
      const parse = `$${label}[${derivation.parse.join(',')}]`;
      const meant = meaning.ok ? JSON.stringify(meaning.value) : `?${meaning.detail}`;
      const key = this.search.distinction === 'meaning' ? meant : parse;
      if (!readings.has(key)) readings.set(key, { parse, meaning, key });
    }
    this.open.delete(place);
    const found = [...readings.values()];
    if (this.cut >= depth) {
      this.cut = Number.POSITIVE_INFINITY;
      this.rules.set(place, found);
    }
    return found;
  }

  private textOf({ from, to }: Span): string {
    return this.search.words.slice(from, to).join(' ');
  }

  private derive(id: number, span: Span, depth: number): readonly Derivation[] {
    this.steps += 1;
    if (this.steps > STEPS_MAX || depth + this.open.size * 4 > DEPTH_MAX) throw new TooComplex('too many readings');
    const node = this.search.grammar.nodes[id];
    if (node === undefined || !this.search.chart.ends(id, span.from).includes(span.to)) return [];
    switch (node.kind) {
      case 'token':
        return [
          {
            steps: [{ kind: 'words', words: node.words }],
            parse: [`"${node.words.join(' ')}"`],
            key: this.tokenKey(node.words),
          },
        ];
      case 'tag':
        return [{ steps: [node], parse: [`{!{${node.content}}!}`], key: `t${id};` }];
      case 'void':
        return [];
      case 'garbage':
        return [EMPTY];
      case 'rule':
        return this.referred(node, span);
      case 'choice':
        return this.distinct(node.items.flatMap((item) => this.derive(item, span, depth + 1)));
      case 'sequence':
        return this.chain(span, {
          count: node.items.length,
          item: (at) => node.items[at] ?? -1,
          mayStop: (at) => at === node.items.length,
          mayStay: () => true,
          depth,
        });
      case 'repeat':
        return this.chain(span, {
          count: node.max ?? Number.POSITIVE_INFINITY,
          item: () => node.item,
          mayStop: (at) => at >= node.min,
          // Turns beyond the least number that take no words would go on for ever and say nothing.
          mayStay: (at) => at < node.min,
          depth,
        });
    }
  }

  /** No tag sees how words were cut into tokens; a logical parse does. */
  private tokenKey(words: readonly string[]): string {
    return this.search.distinction === 'meaning' ? '' : `w${words.join(' ')};`;
  }

  private referred(node: Extract<Node, { kind: 'rule' }>, span: Span): readonly Derivation[] {
    const name = this.search.grammar.rules[node.rule]?.name ?? '';
    const text = this.textOf(span);
    return this.rule(node, span).map((reading) => ({
      steps: [{ kind: 'rule', name, meaning: reading.meaning, text }],
      parse: [reading.parse],
      key: `r${name}=${reading.key};${span.from}-${span.to};`,
    }));
  }

  /** Reads one part after another: the items of a sequence, or the turns of a repeat. */
  private chain({ from, to }: Span, chain: Chain): readonly Derivation[] {
    const known = new Map<number, readonly Derivation[]>();
    const rest = (at: number, place: number): readonly Derivation[] => {
      const key = at * (this.search.words.length + 1) + place;
      const before = known.get(key);
      if (before !== undefined) return before;
      this.steps += 1;
      if (this.steps > STEPS_MAX || chain.depth + at > DEPTH_MAX) throw new TooComplex('too many readings');
      const found: Derivation[] = chain.mayStop(at) && place === to ? [EMPTY] : [];
      if (at < chain.count) {
        for (const end of this.search.chart.ends(chain.item(at), place)) {
          if (end > to || (end === place && !chain.mayStay(at))) continue;
          const after = rest(at + 1, end);
          if (after.length === 0) continue;
          for (const first of this.derive(chain.item(at), { from: place, to: end }, chain.depth + at + 1)) {
            for (const second of after) found.push(joined(first, second));
          }
        }
      }
      const kept = this.distinct(found);
      known.set(key, kept);
      return kept;
    };
    return rest(0, from);
  }

  private distinct(derivations: readonly Derivation[]): readonly Derivation[] {
    if (derivations.length < 2) return derivations;
    const kept = new Map<string, Derivation>();
    for (const one of derivations) if (!kept.has(one.key)) kept.set(one.key, one);
    if (kept.size > READINGS_MAX) this.overflown = true;
    return [...kept.values()].slice(0, READINGS_MAX);
  }
}

interface Chain {
  readonly count: number;
  readonly item: (at: number) => number;
  readonly mayStop: (at: number) => boolean;
  readonly mayStay: (at: number) => boolean;
  readonly depth: number;
}

function joined(first: Derivation, second: Derivation): Derivation {
  if (first === EMPTY) return second;
  if (second === EMPTY) return first;
  return {
    steps: [...first.steps, ...second.steps],
    parse: [...first.parse, ...second.parse],
    key: first.key + second.key,
  };
}
