/** What the ear's end-pointer finds in a whole sound. */
import type { Utterance } from '../acoustics/endpointer';
import { Endpointer } from '../acoustics/endpointer';

/** The utterances that ended in this sound, in order. */
export function utterancesIn(sound: Float32Array): readonly Utterance[] {
  return new Endpointer().push(sound).flatMap((one) => (one.kind === 'ended' ? [one.utterance] : []));
}

/** The utterance in this sound; null where there is none, or more than one. */
export function onlyUtterance(sound: Float32Array): Utterance | null {
  const found = utterancesIn(sound);
  return found.length === 1 ? (found[0] ?? null) : null;
}
