/** Walks over the characters of a grammar: white space, comments, names, and where each fault stands. */
import type { Place } from './srgs';

/** A fault in a grammar file. Thrown inside the readers only; each public reader turns it into a refusal. */
export class GrammarFault extends Error {
  readonly place: Place;

  constructor(message: string, place: Place) {
    super(message);
    this.place = place;
  }
}

/** XML 1.0 NameChar, by Unicode class: what an unquoted token may consist of (SRGS appendix D: Token is an Nmtoken). */
const NAME_CHARACTER = /[\p{L}\p{Nl}\p{Nd}\p{M}._:\u00B7-]/u;
const NAME_START = /^[\p{L}\p{Nl}_:]/u;
const BLANK = /[ \t\r\n]/;

export class Cursor {
  readonly text: string;
  at: number;
  private lineStarts: readonly number[] | null = null;

  constructor(text: string, at = 0) {
    this.text = text;
    this.at = at;
  }

  get done(): boolean {
    return this.at >= this.text.length;
  }

  /** The character under the cursor, whole even outside the basic plane; empty at the end. */
  peek(): string {
    const code = this.text.codePointAt(this.at);
    return code === undefined ? '' : String.fromCodePoint(code);
  }

  starts(text: string): boolean {
    return this.text.startsWith(text, this.at);
  }

  /** Steps over `text` if it stands here. */
  take(text: string): boolean {
    if (!this.starts(text)) return false;
    this.at += text.length;
    return true;
  }

  expect(text: string, after: string): void {
    if (!this.take(text)) throw this.fault(`Expected "${text}" ${after}, found ${this.found()}.`);
  }

  /** White space and both kinds of comment (SRGS 4.13). */
  skip(): void {
    for (;;) {
      const character = this.text[this.at];
      if (character !== undefined && BLANK.test(character)) this.at += 1;
      else if (this.starts('//')) this.skipLine();
      else if (this.starts('/*')) this.skipBlock();
      else return;
    }
  }

  private skipLine(): void {
    while (!this.done && this.text[this.at] !== '\n' && this.text[this.at] !== '\r') this.at += 1;
  }

  private skipBlock(): void {
    const end = this.text.indexOf('*/', this.at + 2);
    if (end < 0) throw this.fault('This comment is never closed: add "*/".');
    this.at = end + 2;
  }

  /** Reads an Nmtoken; empty if none stands here. */
  nmtoken(): string {
    const from = this.at;
    for (let character = this.peek(); NAME_CHARACTER.test(character); character = this.peek()) {
      this.at += character.length;
    }
    return this.text.slice(from, this.at);
  }

  /** Reads up to `end` and steps over it. */
  until(end: string, what: string): string {
    const from = this.at;
    const stop = this.text.indexOf(end, from);
    if (stop < 0) throw this.fault(`${what} is never closed: add "${end}".`);
    this.at = stop + end.length;
    return this.text.slice(from, stop);
  }

  /** Line and column of an offset; CR LF, LF and CR each end a line. */
  place(at = this.at): Place {
    this.lineStarts ??= [0, ...[...this.text.matchAll(/\r\n|\n|\r/g)].map((end) => end.index + end[0].length)];
    let low = 0;
    let high = this.lineStarts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if ((this.lineStarts[middle] ?? 0) <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: at - (this.lineStarts[low] ?? 0) + 1 };
  }

  fault(message: string, at = this.at): GrammarFault {
    return new GrammarFault(message, this.place(at));
  }

  found(): string {
    if (this.done) return 'the end of the file';
    return `"${/^[^\s;]{1,20}/u.exec(this.text.slice(this.at, this.at + 40))?.[0] ?? this.peek()}"`;
  }
}

/** True for a legal rule name: an XML Name without ".", ":" or "-" (SRGS appendix D, ConstrainedName). */
export function isRuleName(name: string): boolean {
  return NAME_START.test(name) && !/[.:-]/.test(name);
}

/** True for an XML Nmtoken: what a token may be without quotes in ABNF. */
export function isNmtoken(text: string): boolean {
  return text !== '' && [...text].every((character) => NAME_CHARACTER.test(character));
}
