/** What both forms of SRGS 1.0 demand of the names in a grammar, once it has been read. */
import { GrammarFault } from './cursor';
import { SPECIAL_RULES } from './srgs';
import type { Expansion, Grammar, RuleReference, SpecialRule } from './srgs';

/** True for the reserved names (SRGS 2.2.3). */
export function isSpecial(name: string): name is SpecialRule {
  return (SPECIAL_RULES as readonly string[]).includes(name);
}

/** Throws GrammarFault where a rule is defined twice (SRGS 3.1), or the root (4.7) or a local reference (2.2.1) not at all. */
export function checkNames({ header, rules }: Pick<Grammar, 'header' | 'rules'>): void {
  const names = new Set<string>();
  for (const { name, place } of rules) {
    if (names.has(name)) throw new GrammarFault(`Rule $${name} is defined twice; rename one.`, place);
    names.add(name);
  }
  if (header.root !== null && !names.has(header.root)) {
    throw new GrammarFault(`The root $${header.root} is not defined in this grammar.`, { line: 1, column: 1 });
  }
  for (const reference of rules.flatMap((rule) => referencesIn(rule.expansion))) {
    if (reference.uri === null && reference.rule !== null && !names.has(reference.rule)) {
      throw new GrammarFault(`$${reference.rule} is not defined in this grammar.`, reference.place);
    }
  }
}

/** Every rule reference in an expansion, in order. */
export function referencesIn(expansion: Expansion): readonly RuleReference[] {
  switch (expansion.kind) {
    case 'reference':
      return [expansion];
    case 'sequence':
      return expansion.items.flatMap(referencesIn);
    case 'choice':
      return expansion.alternatives.flatMap((alternative) => referencesIn(alternative.expansion));
    case 'repeat':
    case 'language':
      return referencesIn(expansion.item);
    default:
      return [];
  }
}
