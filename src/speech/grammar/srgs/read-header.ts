/** Reads the self-identifying header and the declarations of an ABNF grammar (SRGS 4.1 to 4.12). */
import type { Cursor } from './cursor';
import { isRuleName } from './cursor';
import type { Header, Lexicon, Meta, Place } from './srgs';

interface Draft {
  language?: string;
  mode?: 'voice' | 'dtmf';
  root?: string;
  tagFormat?: string;
  base?: string;
  lexicons: Lexicon[];
  metas: Meta[];
  tags: { content: string; place: Place }[];
}

/** `#ABNF 1.0 charset;` with single spaces and a newline at once after the semicolon (SRGS 4.2). */
function readSelfIdentification(cursor: Cursor): string | null {
  const match = /^#ABNF 1\.0(?: ([A-Za-z0-9._:-]+))?;(?=\r|\n)/.exec(cursor.text.slice(cursor.at, cursor.at + 200));
  if (match === null) {
    throw cursor.fault('The first line must be "#ABNF 1.0;" or "#ABNF 1.0 UTF-8;", with nothing else on it.');
  }
  cursor.at += match[0].length;
  return match[1] ?? null;
}

/** True for what may be an address; RFC 3986 tells more, and resolving decides. */
export function isAddress(uri: string): boolean {
  return uri !== '' && !/[\s<"{}|\\^`]/.test(uri);
}

/** True for a media type, with or without parameters. */
export function isMediaType(type: string): boolean {
  return /^[\w.+-]+\/[\w.+-]+(\s*;.*)?$/.test(type);
}

/** `<uri>`: no white space inside (SRGS appendix D, ABNF_URI). */
export function readUri(cursor: Cursor): string {
  const at = cursor.at;
  cursor.expect('<', 'before an address');
  const uri = cursor.until('>', 'This address');
  if (!isAddress(uri)) throw cursor.fault(`"${uri}" is not an address.`, at);
  return uri;
}

/** `~<media/type>` if it stands here, at once after the address (SRGS 2.2.2). */
export function readMediaType(cursor: Cursor): string | null {
  const at = cursor.at;
  if (!cursor.take('~')) return null;
  cursor.expect('<', 'before a media type');
  const type = cursor.until('>', 'This media type');
  if (!isMediaType(type)) throw cursor.fault(`"${type}" is not a media type.`, at);
  return type;
}

/** `{content}` or `{!{content}!}` (SRGS 2.6). */
export function readTag(cursor: Cursor): string {
  if (cursor.take('{!{')) return cursor.until('}!}', 'This tag');
  cursor.expect('{', 'before a tag');
  return cursor.until('}', 'This tag');
}

function readQuoted(cursor: Cursor): string {
  cursor.skip();
  const quote = cursor.peek();
  if (quote !== '"' && quote !== "'") throw cursor.fault(`Expected text in quotes, found ${cursor.found()}.`);
  cursor.at += 1;
  return cursor.until(quote, 'This quoted text');
}

/** `$name`, not one of the reserved names (SRGS 3.1). */
export function readRuleName(cursor: Cursor): string {
  const at = cursor.at;
  cursor.expect('$', 'before a rule name');
  const name = cursor.nmtoken();
  if (!isRuleName(name)) throw cursor.fault(`"$${name}" is not a legal rule name.`, at);
  return name;
}

function readLanguage(cursor: Cursor): string {
  const at = cursor.at;
  const code = cursor.nmtoken();
  if (!isLanguage(code)) throw cursor.fault(`"${code}" is not a language code such as en-US.`, at);
  return code;
}

/** RFC 3066 language tag: letters, then parts of letters and digits. */
export function isLanguage(code: string): boolean {
  return /^[A-Za-z]{1,8}(-[A-Za-z0-9]{1,8})*$/.test(code);
}

function readMode(cursor: Cursor): 'voice' | 'dtmf' {
  const at = cursor.at;
  const mode = cursor.nmtoken();
  if (mode !== 'voice' && mode !== 'dtmf') throw cursor.fault(`The mode must be voice or dtmf, not "${mode}".`, at);
  return mode;
}

function readMeta(cursor: Cursor, kind: 'meta' | 'http-equiv'): Meta {
  const name = readQuoted(cursor);
  cursor.skip();
  const at = cursor.at;
  if (cursor.nmtoken() !== 'is') throw cursor.fault('Expected "is" between name and content.', at);
  return { kind, name, content: readQuoted(cursor) };
}

/** Declarations that may stand once, by the part of the header that each one sets. */
const ONCE: Readonly<Record<string, keyof Draft>> = {
  language: 'language',
  mode: 'mode',
  root: 'root',
  'tag-format': 'tagFormat',
  base: 'base',
};

/** A keyword and where it begins. */
interface Keyword {
  readonly keyword: string;
  readonly at: number;
}

function readDeclaration(cursor: Cursor, { keyword, at }: Keyword, draft: Draft): void {
  const part = ONCE[keyword];
  if (part !== undefined && draft[part] !== undefined) {
    throw cursor.fault(`"${keyword}" is declared twice; keep one.`, at);
  }
  cursor.skip();
  switch (keyword) {
    case 'language':
      draft.language = readLanguage(cursor);
      return;
    case 'mode':
      draft.mode = readMode(cursor);
      return;
    case 'root':
      draft.root = readRuleName(cursor);
      return;
    case 'tag-format':
      draft.tagFormat = readUri(cursor);
      return;
    case 'base':
      draft.base = readUri(cursor);
      return;
    case 'lexicon':
      draft.lexicons.push({ uri: readUri(cursor), mediaType: readMediaType(cursor) });
      return;
    case 'meta':
    case 'http-equiv':
      draft.metas.push(readMeta(cursor, keyword));
      return;
    default:
      throw cursor.fault(
        `${keyword === '' ? cursor.found() : `"${keyword}"`} is no declaration that a grammar header may hold.`,
        at,
      );
  }
}

function finish(cursor: Cursor, draft: Draft, encoding: string | null): Header {
  const mode = draft.mode ?? 'voice';
  if (mode === 'voice' && draft.language === undefined) {
    throw cursor.fault('A spoken grammar must declare its language, for example "language en-US;".', 0);
  }
  return {
    encoding,
    language: draft.language ?? null,
    mode,
    root: draft.root ?? null,
    tagFormat: draft.tagFormat ?? null,
    base: draft.base ?? null,
    lexicons: draft.lexicons,
    metas: draft.metas,
    tags: draft.tags,
  };
}

/** Reads the header and leaves the cursor at the first rule or at the end. Throws GrammarFault. */
export function readHeader(cursor: Cursor): Header {
  cursor.take('\uFEFF');
  const encoding = readSelfIdentification(cursor);
  const draft: Draft = { lexicons: [], metas: [], tags: [] };
  for (;;) {
    cursor.skip();
    const at = cursor.at;
    if (cursor.done || cursor.starts('$')) break;
    if (cursor.starts('{')) {
      draft.tags.push({ place: cursor.place(), content: readTag(cursor) });
    } else {
      const keyword = cursor.nmtoken();
      if (keyword === 'public' || keyword === 'private') {
        cursor.at = at;
        break;
      }
      readDeclaration(cursor, { keyword, at }, draft);
    }
    cursor.skip();
    cursor.expect(';', 'at the end of a declaration');
  }
  return finish(cursor, draft, encoding);
}
