/** Reads the root element and the header elements of an XML grammar (SRGS 4.1 to 4.12). */
import { XmlElement } from '@rgrove/parse-xml';
import { isRuleName } from './cursor';
import { isAddress, isLanguage, isMediaType } from './read-header';
import type { Header, Lexicon, Meta, Place } from './srgs';
import { nameOf } from './xml-source';
import type { XmlSource } from './xml-source';

/** Throws GrammarFault. */
export function readGrxmlHeader(source: XmlSource): Header {
  const { root } = source;
  if (nameOf(root) !== 'grammar') {
    throw source.fault(root, 'The document must be a <grammar> in the namespace "http://www.w3.org/2001/06/grammar".');
  }
  const known = ['version', 'xml:lang', 'xml:base', 'mode', 'root', 'tag-format'];
  const attributes = source.attributes(root, known);
  const mode = attributes.get('mode') ?? 'voice';
  const language = attributes.get('xml:lang') ?? null;
  const rootRule = attributes.get('root') ?? null;
  if (attributes.get('version') !== '1.0') throw source.fault(root, 'The version of a <grammar> must be "1.0".');
  if (mode !== 'voice' && mode !== 'dtmf') {
    throw source.fault(root, `The mode must be voice or dtmf, not "${mode}".`);
  }
  if (mode === 'voice' && language === null) {
    throw source.fault(root, 'A spoken grammar must declare its language, for example xml:lang="en-US".');
  }
  if (language !== null && !isLanguage(language)) {
    throw source.fault(root, `"${language}" is not a language code such as en-US.`);
  }
  if (rootRule !== null && !isRuleName(rootRule)) {
    throw source.fault(root, `"${rootRule}" is not a legal rule name.`);
  }
  const address = (name: string): string | null => {
    const uri = attributes.get(name);
    return uri === undefined ? null : checkedAddress(source, root, uri);
  };
  return {
    encoding: source.encoding,
    language,
    mode,
    root: rootRule,
    tagFormat: address('tag-format'),
    base: address('xml:base'),
    ...headerElements(source),
  };
}

/** They stand before the rules, in any order. */
function headerElements(source: XmlSource): Pick<Header, 'lexicons' | 'metas' | 'tags'> {
  const lexicons: Lexicon[] = [];
  const metas: Meta[] = [];
  const tags: { content: string; place: Place }[] = [];
  let rules = 0;
  for (const child of source.contentOf(source.root)) {
    if (!(child instanceof XmlElement)) {
      if (child.text.trim() !== '') throw source.fault(child, 'Words must stand inside a <rule>.');
      continue;
    }
    const name = nameOf(child);
    if (name === 'rule') {
      rules += 1;
      continue;
    }
    if (rules > 0) throw source.fault(child, `<${child.name}> must stand before the first <rule>.`);
    if (name === 'lexicon') lexicons.push(lexicon(source, child));
    else if (name === 'meta') metas.push(meta(source, child));
    else if (name === 'tag') {
      source.attributes(child, []);
      tags.push({ content: source.textOf(child), place: source.place(child) });
    } else if (name !== 'metadata') {
      throw source.fault(child, `<${child.name}> is nothing that a grammar may hold.`);
    }
  }
  return { lexicons, metas, tags };
}

function lexicon(source: XmlSource, element: XmlElement): Lexicon {
  const attributes = source.attributes(element, ['uri', 'type']);
  const mediaType = attributes.get('type') ?? null;
  if (mediaType !== null && !isMediaType(mediaType)) {
    throw source.fault(element, `"${mediaType}" is not a media type.`);
  }
  return { uri: checkedAddress(source, element, attributes.get('uri') ?? ''), mediaType };
}

function meta(source: XmlSource, element: XmlElement): Meta {
  const attributes = source.attributes(element, ['name', 'http-equiv', 'content']);
  const name = attributes.get('name');
  const equivalent = attributes.get('http-equiv');
  const content = attributes.get('content');
  if (content === undefined || (name === undefined) === (equivalent === undefined)) {
    throw source.fault(element, '<meta> must have "content", and either "name" or "http-equiv".');
  }
  if (name !== undefined) return { kind: 'meta', name, content };
  return { kind: 'http-equiv', name: equivalent ?? '', content };
}

function checkedAddress(source: XmlSource, element: XmlElement, uri: string): string {
  if (!isAddress(uri)) throw source.fault(element, `"${uri}" is not an address.`);
  return uri;
}
