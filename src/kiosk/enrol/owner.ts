/** Under what a person's voice is kept: a digest of the id that stays theirs whatever badge they carry. */
import type { Person } from '../../domain/person';
import { createDigest, makeHashHex } from '../../record/chain/hash';
import { makeUtf8 } from '../../record/chain/utf8';

/** SHA-256 in hex. The first line keeps it apart from every other digest of the same id. */
export function voiceOwner({ id }: Pick<Person, 'id'>): string {
  const digest = createDigest();
  digest.update(makeUtf8(`voice\n${id}`));
  return makeHashHex(digest.hash());
}
