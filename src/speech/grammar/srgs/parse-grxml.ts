/**
 * Reads the XML form of SRGS 1.0 (W3C Recommendation 16 March 2004, sections 2 to 4) into the same nodes as the ABNF
 * form. Each construct has its twin there (SRGS 1.3): an <item> is a bracket, <one-of> are alternatives.
 */
import { XmlElement } from '@rgrove/parse-xml';
import { refused, ok } from '../result';
import type { Result } from '../result';
import { checkNames, isSpecial } from './check-names';
import { GrammarFault, isNmtoken, isRuleName } from './cursor';
import { readGrxmlHeader } from './read-grxml-header';
import { isAddress, isLanguage, isMediaType } from './read-header';
import { DEPTH_MAX, repeatFault } from './limits';
import type { Alternative, Expansion, Grammar, Rule } from './srgs';
import { splitFragment } from './uri';
import { nameOf, XmlSource } from './xml-source';

/**
 * Reads one grammar document; `file` is its name in refusals and the address that relative references start from.
 * Refusal `bad-grammar`: the detail starts with "file:line:column:".
 */
export function parseGrxml(file: string, text: string): Result<Grammar, 'bad-grammar'> {
  try {
    const source = new XmlSource(text);
    const header = readGrxmlHeader(source);
    const reader = new RuleReader(source);
    const elements = source.contentOf(source.root).filter((child) => child instanceof XmlElement);
    const rules = elements.filter((element) => nameOf(element) === 'rule').map((element) => reader.rule(element));
    const grammar: Grammar = { file, form: 'xml', header, rules };
    checkNames(grammar);
    return ok(grammar);
  } catch (fault) {
    if (!(fault instanceof GrammarFault)) throw fault;
    return refused('bad-grammar', `${file}:${fault.place.line}:${fault.place.column}: ${fault.message}`);
  }
}

class RuleReader {
  constructor(private readonly source: XmlSource) {}

  /** `<rule id="name" scope="public">` (SRGS 3.1, 3.2: private unless said otherwise). */
  rule(element: XmlElement): Rule {
    const attributes = this.source.attributes(element, ['id', 'scope']);
    const name = attributes.get('id') ?? '';
    const scope = attributes.get('scope') ?? 'private';
    if (!isRuleName(name)) throw this.source.fault(element, `"${name}" is not a legal rule name.`);
    if (isSpecial(name)) throw this.source.fault(element, `$${name} is reserved and cannot be defined.`);
    if (scope !== 'public' && scope !== 'private') {
      throw this.source.fault(element, `The scope must be public or private, not "${scope}".`);
    }
    const items = this.content(element, 0);
    if (items.length === 0) {
      throw this.source.fault(
        element,
        `Rule $${name} is empty; write <item/> or <ruleref special="NULL"/> for nothing.`,
      );
    }
    return { name, scope, expansion: sequenceOf(items), place: this.source.place(element) };
  }

  /** What stands in a rule or an item: words, and one expansion for each element. */
  private content(element: XmlElement, depth: number): Expansion[] {
    if (depth > DEPTH_MAX) throw this.source.fault(element, `Elements are nested more than ${DEPTH_MAX} deep.`);
    return this.source.contentOf(element).flatMap((child) => {
      if (!(child instanceof XmlElement)) return this.words(child.text, element);
      if (nameOf(child) === 'example' && nameOf(element) === 'rule') return [];
      return [this.expansion(child, depth + 1)];
    });
  }

  private expansion(element: XmlElement, depth: number): Expansion {
    switch (nameOf(element)) {
      case 'token':
        return this.token(element);
      case 'tag':
        this.source.attributes(element, []);
        return { kind: 'tag', content: this.source.textOf(element), place: this.source.place(element) };
      case 'ruleref':
        return this.reference(element);
      case 'item':
        return this.item(element, depth).expansion;
      case 'one-of':
        return this.alternatives(element, depth);
      default:
        throw this.source.fault(element, `<${element.name}> is no part of a rule.`);
    }
  }

  /** Tokens in plain text are parted by white space; double quotes hold one together (SRGS 2.1). */
  private words(text: string, element: XmlElement): Expansion[] {
    return [...text.matchAll(/"([^"]*)("|$)|[^\s"]+/g)].map(([all, quoted, close]) => {
      if (quoted === undefined) return { kind: 'token', words: [all], quoted: !isNmtoken(all) };
      if (close === '') throw this.source.fault(element, 'This quoted token is never closed: add """.');
      return this.quoted(quoted, element);
    });
  }

  private token(element: XmlElement): Expansion {
    const attributes = this.source.attributes(element, ['xml:lang']);
    return this.language(this.quoted(this.source.textOf(element), element), attributes, element);
  }

  /** White space inside a token is made single and trimmed (SRGS 2.1). */
  private quoted(text: string, element: XmlElement): Expansion {
    const words = text.split(/\s+/).filter((word) => word !== '');
    if (words.length === 0) throw this.source.fault(element, 'A token is empty; write <item/> for nothing.');
    return { kind: 'token', words, quoted: true };
  }

  /** `<ruleref uri="#name"/>`, `<ruleref uri="address#name" type="media/type"/>`, `<ruleref special="NULL"/>` (SRGS 2.2). */
  private reference(element: XmlElement): Expansion {
    const { source } = this;
    const attributes = source.attributes(element, ['uri', 'type', 'special']);
    const uri = attributes.get('uri');
    const special = attributes.get('special');
    const mediaType = attributes.get('type') ?? null;
    if (source.textOf(element).trim() !== '') throw source.fault(element, '<ruleref> must be empty.');
    if ((uri === undefined) === (special === undefined)) {
      throw source.fault(element, '<ruleref> must have either "uri" or "special".');
    }
    if (special !== undefined) {
      if (!isSpecial(special)) throw source.fault(element, `"${special}" is not NULL, VOID or GARBAGE.`);
      return { kind: 'special', name: special };
    }
    if (uri === undefined || !isAddress(uri)) throw source.fault(element, `"${uri ?? ''}" is not an address.`);
    if (mediaType !== null && !isMediaType(mediaType)) {
      throw source.fault(element, `"${mediaType}" is not a media type.`);
    }
    const { address, fragment } = splitFragment(uri);
    if (fragment === '' || (fragment !== null && isSpecial(fragment))) {
      throw source.fault(element, 'An address must name a rule after "#", and not a reserved one.');
    }
    const place = source.place(element);
    return { kind: 'reference', uri: address === '' ? null : address, rule: fragment, mediaType, place };
  }

  /** `<one-of>`: one item for each alternative (SRGS 2.4). */
  private alternatives(element: XmlElement, depth: number): Expansion {
    const attributes = this.source.attributes(element, ['xml:lang']);
    const alternatives: Alternative[] = [];
    for (const child of this.source.contentOf(element)) {
      if (child instanceof XmlElement && nameOf(child) === 'item') alternatives.push(this.item(child, depth + 1));
      else if (child instanceof XmlElement || child.text.trim() !== '') {
        throw this.source.fault(element, '<one-of> holds <item> elements alone.');
      }
    }
    const [only] = alternatives;
    if (only === undefined) throw this.source.fault(element, '<one-of> needs an <item>.');
    const isPlain = alternatives.length === 1 && only.weight === null;
    return this.language(isPlain ? only.expansion : { kind: 'choice', alternatives }, attributes, element);
  }

  /** `<item>`: its content, in its language, so many times (SRGS 2.3, 2.5, 2.7). The weight counts in `<one-of>` alone. */
  private item(element: XmlElement, depth: number): Alternative {
    const { source } = this;
    const attributes = source.attributes(element, ['repeat', 'repeat-prob', 'weight', 'xml:lang']);
    const group = this.language(sequenceOf(this.content(element, depth)), attributes, element);
    const weight = this.fraction(attributes.get('weight'), 'weight', element);
    const probability = this.fraction(attributes.get('repeat-prob'), 'probability', element);
    const repeat = attributes.get('repeat');
    // A probability without a repeat says nothing (2.5.1).
    if (repeat === undefined) return { weight, expansion: group };
    const match = /^(\d{1,9})(-(\d{0,9}))?$/.exec(repeat);
    if (match === null) throw source.fault(element, 'A repeat is written "3", "0-1", "2-5" or "1-".');
    const min = Number(match[1]);
    const max = match[2] === undefined ? min : match[3] === '' ? null : Number(match[3]);
    const fault = repeatFault(min, max, probability);
    if (fault !== null) throw source.fault(element, fault);
    return { weight, expansion: { kind: 'repeat', item: group, min, max, probability } };
  }

  /** A number without exponent (SRGS 2.4.1, 2.5.1). */
  private fraction(text: string | undefined, what: string, element: XmlElement): number | null {
    if (text === undefined) return null;
    if (!/^(\d+\.?\d*|\.\d+)$/.test(text)) {
      throw this.source.fault(element, `A ${what} is a plain number, such as 0.5.`);
    }
    return Number(text);
  }

  private language(item: Expansion, attributes: ReadonlyMap<string, string>, element: XmlElement): Expansion {
    const language = attributes.get('xml:lang');
    if (language === undefined) return item;
    if (!isLanguage(language)) throw this.source.fault(element, `"${language}" is not a language such as en-US.`);
    return { kind: 'language', language, item };
  }
}

function sequenceOf(items: readonly Expansion[]): Expansion {
  const [only] = items;
  return items.length === 1 && only !== undefined ? only : { kind: 'sequence', items };
}
