/** Reads and joins small grammars written in tests. */
import { linkGrammar } from '../../../src/speech/grammar/srgs/link';
import type { LinkedGrammar } from '../../../src/speech/grammar/srgs/link';
import { parseAbnf } from '../../../src/speech/grammar/srgs/parse-abnf';

/** A header that most small grammars share. */
export function grammarText(rules: string, format = 'semantics/1.0'): string {
  return `#ABNF 1.0;\nlanguage en;\ntag-format <${format}>;\n${rules}\n`;
}

export function linked(text: string, others: Readonly<Record<string, string>> = {}): LinkedGrammar {
  const parsed = parseAbnf('main.gram', text);
  if (!parsed.ok) throw new Error(parsed.detail);
  const joined = linkGrammar(parsed.value, (address) => others[address] ?? null);
  if (!joined.ok) throw new Error(joined.detail);
  return joined.value;
}

/** A grammar of rules alone, with the usual header. */
export function rules(text: string, others: Readonly<Record<string, string>> = {}): LinkedGrammar {
  return linked(grammarText(text), others);
}
