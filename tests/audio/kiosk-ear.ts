/** The recogniser in Node with the kiosk's own phrases over it, for tests and benches. */
import type { Heard, Vocabulary } from '../../src/voice/hearing';
import { listenForCommands } from '../../src/voice/phrases/listen-for';
import { heardFrom } from '../../src/voice/phrases/heard';
import type { PhraseBook } from '../../src/voice/phrases/phrase-book';
import { readPhraseBook } from '../../src/tools/commands/read-phrases';
import { openNodeListener, withRoom } from '@stowcall/web-speech/calibration/node-listener';
import type { Verdict } from '@stowcall/web-speech/core';

export interface Hearing {
  /** One for each utterance that was found in the sound. */
  readonly heard: readonly Heard[];
  /** Milliseconds of this machine that the search took. */
  readonly searchMs: number;
  /** Milliseconds from the end of the pause to the decision; the search begins before the pause is over. */
  readonly msToDecision: number;
}

export interface KioskEar {
  readonly phraseBook: PhraseBook;
  readonly modelKind: '16k' | '8k';
  /** What is heard in this sound (16 kHz, -1 to 1) with the room's silence around it. */
  hear(vocabulary: Vocabulary, samples: Float32Array): Hearing;
  /** The same for a sound that has its room around it already. */
  hearInRoom(vocabulary: Vocabulary, sound: Float32Array): Hearing;
  dispose(): void;
}

/** The ear for the project's own phrases, with the fetched model, or else the engine's own 8 kHz one. */
export async function openKioskEar(root: string, wish: 'fetched' | '8k' = 'fetched'): Promise<KioskEar> {
  const listener = await openNodeListener(root, wish);
  const phraseBook = readPhraseBook(root);
  const hearInRoom = (vocabulary: Vocabulary, sound: Float32Array): Hearing => {
    const listened = listenForCommands(vocabulary, phraseBook);
    if (!listened.ok) throw new Error(listened.detail);
    const { verdicts, ...times } = listener.decide(listened.value, sound);
    const { msToDecision } = times;
    const heardOf = (verdict: Verdict): Heard => heardFrom(verdict, { vocabulary, phraseBook, msToDecision });
    return { ...times, heard: verdicts.map(heardOf) };
  };
  return {
    phraseBook,
    modelKind: listener.modelKind,
    hear: (vocabulary, samples) => hearInRoom(vocabulary, withRoom(samples)),
    hearInRoom,
    dispose: () => listener.dispose(),
  };
}
