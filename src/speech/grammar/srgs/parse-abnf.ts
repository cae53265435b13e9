/** Reads the ABNF form of SRGS 1.0 (W3C Recommendation 16 March 2004, sections 2 to 4 and appendix D). */
import { refused, ok } from '../result';
import type { Result } from '../result';
import { checkNames, isSpecial } from './check-names';
import { Cursor, GrammarFault } from './cursor';
import { CHARACTERS_MAX, DEPTH_MAX, repeatFault } from './limits';
import { isLanguage, readHeader, readMediaType, readRuleName, readTag, readUri } from './read-header';
import type { Alternative, Expansion, Grammar, Rule } from './srgs';
import { splitFragment } from './uri';

/**
 * Reads one grammar file.
 * `file` is the name told in refusals and the address that relative references start from.
 * Refusal `bad-grammar`: the detail starts with "file:line:column:".
 */
export function parseAbnf(file: string, text: string): Result<Grammar, 'bad-grammar'> {
  const cursor = new Cursor(text);
  try {
    if (text.length > CHARACTERS_MAX) throw cursor.fault(`A grammar may have ${CHARACTERS_MAX} characters at most.`);
    const header = readHeader(cursor);
    const rules = readRules(cursor);
    const grammar: Grammar = { file, form: 'abnf', header, rules };
    checkNames(grammar);
    return ok(grammar);
  } catch (fault) {
    if (!(fault instanceof GrammarFault)) throw fault;
    return refused('bad-grammar', `${file}:${fault.place.line}:${fault.place.column}: ${fault.message}`);
  }
}

function readRules(cursor: Cursor): Rule[] {
  const rules: Rule[] = [];
  for (cursor.skip(); !cursor.done; cursor.skip()) rules.push(readRule(cursor));
  return rules;
}

/** `[public|private] $name = expansion ;` (SRGS 3.1, 3.2: private unless said otherwise). */
function readRule(cursor: Cursor): Rule {
  const at = cursor.at;
  let scope: 'public' | 'private' = 'private';
  if (!cursor.starts('$')) {
    const word = cursor.nmtoken();
    if (word !== 'public' && word !== 'private') {
      throw cursor.fault(`Expected a rule such as "$name = words;", found "${word || cursor.peek()}".`, at);
    }
    scope = word;
    cursor.skip();
  }
  const name = readRuleName(cursor);
  if (isSpecial(name)) throw cursor.fault(`$${name} is reserved and cannot be defined.`, at);
  cursor.skip();
  cursor.expect('=', `after $${name}`);
  const expansion = new ExpansionReader(cursor).read(0);
  cursor.expect(';', `at the end of rule $${name}`);
  return { name, scope, expansion, place: cursor.place(at) };
}

class ExpansionReader {
  constructor(private readonly cursor: Cursor) {}

  /** ruleExpansion ::= ruleAlternative ('|' ruleAlternative)* */
  read(depth: number): Expansion {
    if (depth > DEPTH_MAX) throw this.cursor.fault(`Brackets are nested more than ${DEPTH_MAX} deep.`);
    const alternatives: Alternative[] = [];
    do alternatives.push(this.alternative(depth));
    while (this.cursor.take('|'));
    const only = alternatives[0];
    if (alternatives.length === 1 && only !== undefined && only.weight === null) return only.expansion;
    return { kind: 'choice', alternatives };
  }

  /** ruleAlternative ::= Weight? sequenceElement+ */
  private alternative(depth: number): Alternative {
    this.cursor.skip();
    const weight = this.cursor.starts('/') ? this.fractional('weight') : null;
    const items: Expansion[] = [];
    for (;;) {
      this.cursor.skip();
      const item = this.element(depth);
      if (item === null) break;
      items.push(item);
    }
    const first = items[0];
    if (first === undefined) {
      throw this.cursor.fault(`Expected words before ${this.cursor.found()}; write () or $NULL for nothing.`);
    }
    return { weight, expansion: items.length === 1 ? first : { kind: 'sequence', items } };
  }

  /** sequenceElement ::= subexpansion repeatOperator? */
  private element(depth: number): Expansion | null {
    const item = this.subexpansion(depth);
    if (item === null) return null;
    this.cursor.skip();
    return this.cursor.starts('<') ? this.repeat(item) : item;
  }

  private subexpansion(depth: number): Expansion | null {
    const { cursor } = this;
    const place = cursor.place.bind(cursor);
    switch (cursor.peek()) {
      case '$':
        return this.language(this.reference());
      case '{': {
        const at = place();
        return { kind: 'tag', content: readTag(cursor), place: at };
      }
      case '(':
        return this.group(depth, ')');
      case '[':
        return this.group(depth, ']');
      case '"':
        return this.language(this.quoted());
      default: {
        const word = cursor.nmtoken();
        return word === '' ? null : this.language({ kind: 'token', words: [word], quoted: false });
      }
    }
  }

  /** `$name`, `$NULL`, `$<uri#rule>`, `$<uri>~<media/type>` (SRGS 2.2). */
  private reference(): Expansion {
    const { cursor } = this;
    const at = cursor.at;
    const place = cursor.place();
    if (cursor.text[at + 1] !== '<') {
      const name = readRuleName(cursor);
      if (isSpecial(name)) return { kind: 'special', name };
      return { kind: 'reference', uri: null, rule: name, mediaType: null, place };
    }
    cursor.at += 1;
    const { address, fragment } = splitFragment(readUri(cursor));
    if (fragment === '' || (fragment !== null && isSpecial(fragment))) {
      throw cursor.fault('An address must name a rule after "#", and not a reserved one.', at);
    }
    // An address of a fragment alone is this very document (RFC 3986 4.4), whatever the base.
    const uri = address === '' ? null : address;
    return { kind: 'reference', uri, rule: fragment, mediaType: readMediaType(cursor), place };
  }

  private group(depth: number, close: ')' | ']'): Expansion {
    const { cursor } = this;
    cursor.at += 1;
    cursor.skip();
    if (close === ')' && cursor.take(')')) return { kind: 'sequence', items: [] };
    const inner = this.read(depth + 1);
    cursor.expect(close, 'to close a bracket');
    const group = this.language(inner);
    return close === ')' ? group : { kind: 'repeat', item: group, min: 0, max: 1, probability: null };
  }

  /** White space inside quotes is made single and trimmed (SRGS 2.1). */
  private quoted(): Expansion {
    const { cursor } = this;
    const at = cursor.at;
    cursor.at += 1;
    const words = cursor
      .until('"', 'This quoted token')
      .split(/\s+/)
      .filter((word) => word !== '');
    if (words.length === 0) throw cursor.fault('A quoted token is empty; write () for nothing.', at);
    return { kind: 'token', words, quoted: true };
  }

  /**
   * `!en-US` after a token or a closing bracket (SRGS 2.7). After a rule the Recommendation has no place for it, but
   * the Candidate Recommendation of 26 June 2002 had: such grammars are still about, and it changes nothing.
   */
  private language(item: Expansion): Expansion {
    const { cursor } = this;
    cursor.skip();
    const at = cursor.at;
    if (!cursor.take('!')) return item;
    const language = cursor.nmtoken();
    if (!isLanguage(language)) throw cursor.fault(`"!${language}" is not a language such as !en-US.`, at);
    return { kind: 'language', language, item };
  }

  /** `<n>`, `<n-m>`, `<n->`, each with an optional probability (SRGS 2.5). */
  private repeat(item: Expansion): Expansion {
    const { cursor } = this;
    const at = cursor.at;
    cursor.at += 1;
    cursor.skip();
    const match = /^(\d{1,9})(?:(-)(\d{0,9}))?(?!\d)/.exec(cursor.text.slice(cursor.at, cursor.at + 24));
    if (match === null) throw cursor.fault('A repeat is written <3>, <0-1>, <2-5> or <1->.', at);
    cursor.at += match[0].length;
    cursor.skip();
    const probability = cursor.starts('/') ? this.fractional('probability') : null;
    cursor.skip();
    cursor.expect('>', 'to close a repeat');
    const min = Number(match[1]);
    const max = match[2] === undefined ? min : match[3] === '' || match[3] === undefined ? null : Number(match[3]);
    const fault = repeatFault(min, max, probability);
    if (fault !== null) throw cursor.fault(fault, at);
    return { kind: 'repeat', item, min, max, probability };
  }

  /** `/number/` without exponent (SRGS 2.4.1, 2.5.1). */
  private fractional(what: string): number {
    const { cursor } = this;
    const match = /^\/(\d+\.?\d*|\.\d+)\//.exec(cursor.text.slice(cursor.at, cursor.at + 60));
    if (match === null) throw cursor.fault(`A ${what} is a plain number between strokes, such as /0.5/.`);
    cursor.at += match[0].length;
    return Number(match[1]);
  }
}
