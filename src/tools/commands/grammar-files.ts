/** Grammar files on disk: their bytes as text, and one folder from which references are followed. */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join, resolve, sep } from 'node:path';
import type { Result } from '../../domain/result';
import { ok, refused } from '../../domain/result';

/**
 * Bytes to text: a byte order mark decides, then the encoding in the header (SRGS 4.4). Where neither tells, UTF-8
 * is tried, which other encodings rarely satisfy by accident, and then ISO-8859-1.
 * Refusal `bad-encoding`: unknown encoding, or bytes that are not of it.
 */
export function decodeGrammar(bytes: Uint8Array): Result<string, 'bad-encoding'> {
  const named = /^#ABNF 1\.0 ([\w.:-]+);/.exec(Buffer.from(bytes.slice(0, 80)).toString('latin1'))?.[1];
  const mark = (bytes[0] ?? 0) * 256 + (bytes[1] ?? 0);
  const marked = mark === 0xfeff ? 'utf-16be' : mark === 0xfffe ? 'utf-16le' : mark === 0xefbb ? 'utf-8' : named;
  for (const encoding of marked === undefined ? ['utf-8', 'iso-8859-1'] : [marked]) {
    try {
      return ok(new TextDecoder(encoding, { fatal: true }).decode(bytes));
    } catch {
      continue;
    }
  }
  return refused('bad-encoding', `The bytes are not ${marked ?? 'text'}; correct the encoding in the first line.`);
}

/** Reads grammars from one folder and from nowhere else; null for whatever lies outside or is absent. */
export function readerOf(folder: string): (address: string) => string | null {
  const root = resolve(folder);
  return (address) => {
    const path = resolve(join(root, address));
    if (/^[a-z][a-z0-9+.-]*:/i.test(address) || !path.startsWith(root + sep)) return null;
    if (!existsSync(path) || !statSync(path).isFile()) return null;
    const text = decodeGrammar(readFileSync(path));
    return text.ok ? text.value : null;
  };
}
