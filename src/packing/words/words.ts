/** Sentences in two forms that say the same: one for the voice, with figures as words, and one for the eye. */
import type { CountNoun } from '../../domain/procedure';
import type { Quantity } from '../../domain/quantity';
import { makeQuantity } from '../../domain/quantity';
import { sayNumber, sayQuantity, spellSerial } from '../../domain/spoken';

export interface Words {
  readonly say: string;
  readonly show: string;
}

export type WordPart = string | number | Quantity | Words;

/** The same text for ear and eye. */
export function plain(text: string): Words {
  return { say: text, show: text };
}

/** A serial: spelled for the ear, as printed for the eye. */
export function serialWords(serial: string): Words {
  return { say: spellSerial(serial), show: serial };
}

function partWords(part: WordPart): Words {
  if (typeof part === 'string') return plain(part);
  if (typeof part === 'number') return { say: sayNumber(part), show: String(part) };
  if ('unit' in part) return { say: sayQuantity(part), show: makeQuantity(part) };
  return part;
}

/** Builds both forms at once: words`Stage ${4} of ${12}: ${title}.` Whole numbers and lengths become words for the ear. */
export function words(texts: TemplateStringsArray, ...parts: readonly WordPart[]): Words {
  let say = texts[0] ?? '';
  let show = say;
  parts.forEach((part, index) => {
    const both = partWords(part);
    const after = texts[index + 1] ?? '';
    say += both.say + after;
    show += both.show + after;
  });
  return { say, show };
}

/** Sentences one after another; empty ones leave no gap. */
export function joinWords(all: readonly Words[], between = ' '): Words {
  return {
    say: all
      .map((one) => one.say)
      .filter((text) => text !== '')
      .join(between),
    show: all
      .map((one) => one.show)
      .filter((text) => text !== '')
      .join(between),
  };
}

/** Ends a text from a procedure file with a full stop, so that the voice pauses. */
export function sentence(text: string): string {
  const trimmed = text.trim();
  return trimmed === '' || /[.!?]$/.test(trimmed) ? trimmed : `${trimmed}.`;
}

/** The first letter as a capital. */
export function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

/** "one stow", "five stows". */
export function countWords(count: number, noun: CountNoun): Words {
  return words`${count} ${plain(nounFor(count, noun))}`;
}

/** Every noun that can be counted makes its plural with an s. */
export function nounFor(count: number, noun: CountNoun): string {
  return count === 1 ? noun.slice(0, -1) : noun;
}

/** "a", "a and b", "a, b and c". */
export function listOf(names: readonly string[], last = 'and'): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} ${last} ${names.at(-1) ?? ''}`;
}

const WRAPS: Readonly<Record<number, string>> = { 1: 'single wrap', 2: 'double wrap', 3: 'triple wrap' };

/** How often a band goes round its stow, as riggers say it: "double wrap". */
export function wrapWords(wraps: number): Words {
  const named = WRAPS[wraps];
  return named === undefined ? words`${wraps} wraps` : plain(named);
}
