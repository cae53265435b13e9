/** Tells the ear whose voices to expect: of those who work at this pack now, and of nobody else. */
import type { VoiceExpected } from '../../packing/machine/voices-expected';
import type { EnrollingPort } from '../../voice/enrolling';
import type { VoiceSampleStore } from '../../voice/voice-sample-store';
import type { VoiceSample } from '@stowcall/web-speech/core';
import { voiceOwner } from './owner';
import { isVerdict, type PhraseToRead } from './phrases-to-read';

export interface KnownVoices {
  /** Who is expected to speak from now on; the same ones again cost nothing. */
  follow(expected: readonly VoiceExpected[]): void;
}

/** Without a sample store that answers nobody's voice is known, and the ear hears as it did before. */
export function createKnownVoices(
  ear: Pick<EnrollingPort, 'know'>,
  sampleStore: VoiceSampleStore,
  phrases: readonly PhraseToRead[],
): KnownVoices {
  let followed = '[]';
  let turn = 0;

  const samplesOf = async ({ person, as }: VoiceExpected): Promise<readonly VoiceSample[]> => {
    const kept = await sampleStore.find(voiceOwner({ id: person }));
    if (!kept.ok) return [];
    // Whoever packs may know how to release, but must not be heard the better for it.
    return kept.value.samples.filter(({ words }) => as === 'inspector' || !isVerdict(phrases, words));
  };

  return {
    follow(expected) {
      const next = JSON.stringify(expected);
      if (next === followed) return;
      followed = next;
      turn += 1;
      const mine = turn;
      // Until the others are found, nobody is known: never the voice of somebody who has gone.
      ear.know([]);
      if (expected.length === 0) return;
      void Promise.all(expected.map(samplesOf)).then((found) => {
        const samples = found.flat();
        if (mine === turn && samples.length > 0) ear.know(samples);
      });
    },
  };
}
