/** Number strings of any length, as a grammar over the kiosk's own table of digits and numbers. */
import { join } from 'node:path';
import type { AnyGrammar } from '../speech/any-grammar';
import { anyGrammarOf } from '../speech/any-grammar';

/** Digit by digit, or as two numbers, as people say house and telephone numbers. */
const STRINGS = `#ABNF 1.0 UTF-8;
language en-US;
mode voice;
tag-format <semantics/1.0>;
public $string = $<numbers.gram#digit> <1-10>
               | $<numbers.gram#whole> $<numbers.gram#whole>
               | $<numbers.gram#whole>
               | $<numbers.gram#whole> $<numbers.gram#digit> $<numbers.gram#digit>;
`;

/** Words that mean the same figure. */
const SAME: Readonly<Record<string, string>> = {
  oh: 'zero',
  niner: 'nine',
  fower: 'four',
  fife: 'five',
  tree: 'three',
};

/** The grammar; its meanings are the words, with one word for each figure. */
export function numberStrings(root: string): AnyGrammar {
  const grammar = anyGrammarOf({ name: 'strings.gram', text: STRINGS, folder: join(root, 'grammars'), rule: null });
  return {
    ...grammar,
    meaningOf: (words) => {
      if (grammar.meaningOf(words) === null) return null;
      return JSON.stringify(words.split(' ').map((word) => SAME[word] ?? word));
    },
  };
}
