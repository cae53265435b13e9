/** Reads a grammar of SRGS 1.0 in either form. */
import type { Result } from '../result';
import { parseAbnf } from './parse-abnf';
import { parseGrxml } from './parse-grxml';
import type { Grammar } from './srgs';

/**
 * Reads XML where the text begins with "<", and ABNF otherwise. `file` is the name told in refusals and the address that
 * relative references start from. Refusal `bad-grammar`: the detail starts with "file:line:column:".
 */
export function readGrammar(text: string, file = 'grammar'): Result<Grammar, 'bad-grammar'> {
  return /^\uFEFF?\s*</.test(text) ? parseGrxml(file, text) : parseAbnf(file, text);
}
