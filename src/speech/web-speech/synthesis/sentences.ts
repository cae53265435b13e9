/** Cuts a text into pieces that are spoken one after another, so that the first is heard before the last is made. */

export interface Sentence {
  readonly text: string;
  /** Where it begins in the whole text. */
  readonly charIndex: number;
}

/** Above this many characters (about 12 seconds) a sentence is cut at a comma or, failing that, between words. */
export const LONGEST = 180;

/** Sentences of `text` in order, without the white space between them. A point inside a number does not end one. */
export function splitSentences(text: string): readonly Sentence[] {
  const sentences: Sentence[] = [];
  const pattern = /[^\n]*?(?:[.!?;]+["')\]]*(?=\s|$)|(?=\n|$))/gy;
  while (pattern.lastIndex < text.length) {
    const at = pattern.lastIndex;
    const found = pattern.exec(text)?.[0] ?? text.slice(at);
    // The match may be empty in front of a line break: step over it.
    pattern.lastIndex = Math.max(at + found.length, at + 1);
    pushTrimmed(sentences, found, at);
  }
  return sentences.flatMap(shorten);
}

function pushTrimmed(sentences: Sentence[], piece: string, at: number): void {
  const lead = piece.length - piece.trimStart().length;
  const text = piece.trim();
  if (text !== '') sentences.push({ text, charIndex: at + lead });
}

function shorten(sentence: Sentence): readonly Sentence[] {
  const pieces: Sentence[] = [];
  let { text, charIndex } = sentence;
  while (text.length > LONGEST) {
    const head = text.slice(0, LONGEST);
    const comma = head.lastIndexOf(', ') + 1;
    const cut = comma > LONGEST / 3 ? comma : Math.max(head.lastIndexOf(' '), 0) || LONGEST;
    pushTrimmed(pieces, text.slice(0, cut), charIndex);
    const rest = text.slice(cut);
    charIndex += cut + rest.length - rest.trimStart().length;
    text = rest.trim();
  }
  pushTrimmed(pieces, text, charIndex);
  return pieces;
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/**
 * The text of an SSML document (W3C SSML 1.1): the engine knows no tags, so they become blanks of the same length and
 * every word stays where it was. Any other text is left as it is.
 */
export function withoutTags(text: string): string {
  if (!/^\s*(<\?xml[^>]*\?>\s*)?<speak[\s>]/.test(text)) return text;
  return text
    .replace(/<!--[\s\S]*?-->|<[^>]*>/g, (tag) => ' '.repeat(tag.length))
    .replace(/&(lt|gt|amp|quot|apos);/g, (entity, name: string) => (ENTITIES[name] ?? '').padEnd(entity.length));
}
