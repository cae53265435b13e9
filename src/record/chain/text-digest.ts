/** SHA-256 of a text's UTF-8 bytes, in hex: what stands in facts and files instead of what must not be read from them. */
import { createDigest, makeHashHex } from './hash';
import { makeUtf8 } from './utf8';

export function textDigest(text: string): string {
  const digest = createDigest();
  digest.update(makeUtf8(text));
  return makeHashHex(digest.hash());
}
