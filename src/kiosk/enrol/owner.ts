/** The key of a person's kept voice: a digest of the person's id, which stays when the badge changes. */
import type { Person } from '../../domain/person';
import { textDigest } from '../../record/chain/text-digest';

/** SHA-256 in hex. The first line keeps it apart from every other digest of the same id. */
export function voiceOwner({ id }: Pick<Person, 'id'>): string {
  return textDigest(`voice\n${id}`);
}
