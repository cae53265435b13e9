/** Small ABNF texts, and what reading them gives. */
import { parseAbnf } from '../../../../src/speech/grammar/srgs/parse-abnf';
import type { Grammar } from '../../../../src/speech/grammar/srgs/srgs';

export const HEAD = '#ABNF 1.0;\nlanguage en;\n';

/** The refusal's detail; "read" where there is none. */
export function faultOf(text: string): string {
  const read = parseAbnf('a.gram', text);
  return read.ok ? 'read' : read.detail;
}

/** The grammar of a text that must be sound. */
export function grammarOf(text: string): Grammar {
  const read = parseAbnf('a.gram', text);
  if (!read.ok) throw new Error(read.detail);
  return read.value;
}
