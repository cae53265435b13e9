/** Reads the recogniser's grammar back, so that a test can ask what it accepts: JSGF rewritten as ABNF. */
import type { LinkedGrammar } from '../../../../src/speech/grammar/srgs/link';
import { linked } from '../linked';

/** JSGF (W3C Note 5 June 2000) differs from ABNF in its brackets for rules, and in "*" and "+" for repeats. */
export function readJsgf(jsgf: string): LinkedGrammar {
  const [first = '', name = '', ...rest] = jsgf.split('\n');
  if (first !== '#JSGF V1.0;' || !/^grammar \w+;$/.test(name)) throw new Error(`not JSGF: ${first} ${name}`);
  const rules = rest
    .join('\n')
    .replace(/\*/g, '<0->')
    .replace(/\+/g, '<1->')
    .replace(/<(\w+)>/g, '$$$1')
    .replace(/\/[\d.e-]+\//g, '/1/');
  return linked(`#ABNF 1.0;\nlanguage en;\n${rules}`);
}
