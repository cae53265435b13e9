/** Writes a grammar in ABNF form; reading what was written gives the same grammar again. */
import type { Alternative, Expansion, Grammar, Header } from '../../../../src/speech/grammar/srgs/srgs';

/** The text of a grammar, with line feeds, in the encoding that its header names or UTF-8. */
export function makeAbnf(grammar: Grammar): string {
  const rules = grammar.rules.map((rule) => `${rule.scope} $${rule.name} = ${makeExpansion(rule.expansion)};`);
  return [...headerLines(grammar.header), ...rules, ''].join('\n');
}

function headerLines(header: Header): readonly string[] {
  const encoding = header.encoding === null ? '' : ` ${header.encoding}`;
  return [
    `#ABNF 1.0${encoding};`,
    ...(header.language === null ? [] : [`language ${header.language};`]),
    `mode ${header.mode};`,
    ...(header.root === null ? [] : [`root $${header.root};`]),
    ...(header.tagFormat === null ? [] : [`tag-format <${header.tagFormat}>;`]),
    ...(header.base === null ? [] : [`base <${header.base}>;`]),
    ...header.lexicons.map(({ uri, mediaType }) => `lexicon <${uri}>${mediaType === null ? '' : `~<${mediaType}>`};`),
    ...header.metas.map(({ kind, name, content }) => `${kind} ${quote(name)} is ${quote(content)};`),
    ...header.tags.map(({ content }) => `${makeTag(content)};`),
  ];
}

/** Text that was read holds one kind of quote at most. */
function quote(text: string): string {
  return text.includes('"') ? `'${text}'` : `"${text}"`;
}

function makeTag(content: string): string {
  // "{!{" opens the long form, so a short tag must not begin with "!{".
  return content.includes('}') || content.startsWith('!{') ? `{!{${content}}!}` : `{${content}}`;
}

/** A right-hand side as text. */
export function makeExpansion(expansion: Expansion): string {
  switch (expansion.kind) {
    case 'token':
      return expansion.quoted ? `"${expansion.words.join(' ')}"` : (expansion.words[0] ?? '()');
    case 'tag':
      return makeTag(expansion.content);
    case 'special':
      return `$${expansion.name}`;
    case 'reference': {
      if (expansion.uri === null) return `$${expansion.rule ?? ''}`;
      const fragment = expansion.rule === null ? '' : `#${expansion.rule}`;
      return `$<${expansion.uri}${fragment}>${expansion.mediaType === null ? '' : `~<${expansion.mediaType}>`}`;
    }
    case 'sequence':
      return expansion.items.length === 0 ? '()' : expansion.items.map(makeItem).join(' ');
    case 'choice':
      return expansion.alternatives.map(makeAlternative).join(' | ');
    case 'repeat': {
      const { min, max, probability } = expansion;
      const range = max === min ? `${min}` : `${min}-${max ?? ''}`;
      return `${makeItem(expansion.item)} <${range}${probability === null ? '' : ` /${plain(probability)}/`}>`;
    }
    case 'language':
      return `${makeItem(expansion.item)}!${expansion.language}`;
  }
}

function makeAlternative({ weight, expansion }: Alternative): string {
  const text = expansion.kind === 'choice' ? `(${makeExpansion(expansion)})` : makeExpansion(expansion);
  return weight === null ? text : `/${plain(weight)}/ ${text}`;
}

/** A part of something larger: bracketed unless it is one piece. */
function makeItem(item: Expansion): string {
  const whole = ['token', 'tag', 'special', 'reference'].includes(item.kind);
  const empty = item.kind === 'sequence' && item.items.length === 0;
  return whole || empty ? makeExpansion(item) : `(${makeExpansion(item)})`;
}

/** A number without exponent, which SRGS does not know. */
function plain(value: number): string {
  return /e/.test(String(value)) ? value.toFixed(20) : String(value);
}
