/** What the kiosk's own ear makes of a sentence, as the benches count it. */
import type { Heard, Vocabulary } from '../../../src/voice/hearing';
import type { KioskEar } from '../../audio/kiosk-ear';
import type { Outcome } from '../speech/tally';

/** Lets the ear hear this sound for this text; the text may be no command at all. The sound has its room around it. */
export function decisionOn(
  ear: KioskEar,
  { vocabulary, text }: { readonly vocabulary: Vocabulary; readonly text: string },
  sound: Float32Array,
): Outcome {
  const meant = ear.phraseBook.understand(vocabulary, text);
  const wanted = meant.kind === 'command' ? JSON.stringify(meant.command) : null;
  const { heard } = ear.hearInRoom(vocabulary, sound);
  return { wav: '', text, wanted, ...summed(heard) };
}

/** Of all the utterances in one sound: the first that is obeyed, else the first that is asked about. */
function summed(heard: readonly Heard[]): Pick<Outcome, 'heard' | 'meaning' | 'decision'> {
  const done = heard.find((one) => one.kind === 'heard');
  if (done !== undefined) return { heard: done.words, meaning: JSON.stringify(done.command), decision: 'obeyed' };
  const question = heard.find((one) => one.kind === 'ambiguous');
  if (question === undefined) return { heard: null, meaning: null, decision: 'refused' };
  return { heard: question.candidates.join(' / '), meaning: null, decision: 'asked' };
}
