/** Everything about people's voices that the kiosk needs: learning one, knowing those at work, and tidying up. */
import type { Loft } from '../../domain/loft';
import type { Result } from '../../domain/result';
import type { VoiceSample } from '@stowcall/web-speech/core';
import type { VoiceParts } from '../parts';
import { createEnrolPage, type EnrolPage } from './enrol-page';
import { createKnownVoices, type KnownVoices } from './known-voices';
import { voiceOwner } from './owner';
import { sampleInTime, type ReadTrouble } from './patient-sample';

export interface Voices extends KnownVoices {
  /** Listens to one line, but not for ever. */
  sample(words: string): Promise<Result<VoiceSample, ReadTrouble>>;
  /** A new enrolment. */
  enrol(loft: Loft, onChange: () => void, leave: () => void): EnrolPage;
  /** Erases the voices of who is not in the people file any more. Only after the journal has been opened. */
  tidy(loft: Loft): void;
}

export function createVoices({ ear, sampleStore, phrases }: VoiceParts): Voices {
  return {
    ...createKnownVoices(ear, sampleStore, phrases),
    sample: (words) => sampleInTime(ear, words),
    enrol: (loft, onChange, leave) => createEnrolPage({ loft, sampleStore, phrases, onChange, leave }),
    // A sample store that does not answer is told where somebody wants it; packing goes on without.
    tidy: (loft) => void sampleStore.eraseOthers(loft.people.map(voiceOwner)),
  };
}
