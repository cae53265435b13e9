/** Writes a grammar in XML form; reading what was written gives the same grammar again. */
import type { Expansion, Grammar, Header } from '../../../../src/speech/grammar/srgs/srgs';

type Attributes = Readonly<Record<string, string | number | null>>;

/** The text of a grammar. */
export function makeGrxml({ header, rules }: Grammar): string {
  const encoding = header.encoding === null ? '' : ` encoding="${header.encoding}"`;
  const written = rules.map(({ name, scope, expansion }) =>
    element('rule', { id: name, scope }, makeContent(expansion)),
  );
  const attributes = {
    xmlns: 'http://www.w3.org/2001/06/grammar',
    version: '1.0',
    'xml:lang': header.language,
    'xml:base': header.base,
    mode: header.mode,
    root: header.root,
    'tag-format': header.tagFormat,
  };
  const body = [...headerElements(header), ...written].map((line) => `  ${line}\n`).join('');
  return `<?xml version="1.0"${encoding}?>\n${element('grammar', attributes, `\n${body}`)}\n`;
}

function headerElements({ lexicons, metas, tags }: Header): readonly string[] {
  return [
    ...lexicons.map(({ uri, mediaType }) => element('lexicon', { uri, type: mediaType }, '')),
    ...metas.map(({ kind, name, content }) =>
      element('meta', { [kind === 'meta' ? 'name' : 'http-equiv']: name, content }, ''),
    ),
    ...tags.map(({ content }) => element('tag', {}, escaped(content))),
  ];
}

/** What stands within a rule or an item. */
function makeContent(expansion: Expansion): string {
  if (expansion.kind !== 'sequence' || expansion.items.length < 2) return makeExpansion(expansion);
  return expansion.items.map(makeExpansion).join(' ');
}

/** One element, or a bare word. */
function makeExpansion(expansion: Expansion): string {
  switch (expansion.kind) {
    case 'token':
      return expansion.quoted ? element('token', {}, escaped(expansion.words.join(' '))) : (expansion.words[0] ?? '');
    case 'tag':
      return element('tag', {}, escaped(expansion.content));
    case 'special':
      return element('ruleref', { special: expansion.name }, '');
    case 'reference': {
      const fragment = expansion.rule === null ? '' : `#${expansion.rule}`;
      return element('ruleref', { uri: `${expansion.uri ?? ''}${fragment}`, type: expansion.mediaType }, '');
    }
    case 'sequence':
      return element('item', {}, expansion.items.map(makeExpansion).join(' '));
    case 'choice':
      return element(
        'one-of',
        {},
        expansion.alternatives
          .map((one) => element('item', { weight: one.weight }, makeContent(one.expansion)))
          .join(''),
      );
    case 'repeat': {
      const { item, min, max, probability } = expansion;
      const repeat = max === min ? `${min}` : `${min}-${max ?? ''}`;
      return element('item', { repeat, 'repeat-prob': probability }, makeContent(item));
    }
    case 'language':
      return element('item', { 'xml:lang': expansion.language }, makeContent(expansion.item));
  }
}

function element(name: string, attributes: Attributes, content: string): string {
  const given = Object.entries(attributes).filter(([, value]) => value !== null);
  const head = [name, ...given.map(([key, value]) => `${key}="${escaped(String(value))}"`)].join(' ');
  return content === '' ? `<${head}/>` : `<${head}>${content}</${name}>`;
}

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (character) => `&#${character.charCodeAt(0)};`);
}
