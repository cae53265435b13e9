/** Under what a person's voice is kept: a digest of the id that stays theirs whatever badge they carry. */
import type { Person } from '../../domain/person';
import { textDigest } from '../../record/chain/text-digest';

/** SHA-256 in hex. The first line keeps it apart from every other digest of the same id. */
export function voiceOwner({ id }: Pick<Person, 'id'>): string {
  return textDigest(`voice\n${id}`);
}
