/** Samples one line with a time limit: a person who says nothing must not stop the enrolment. */
import { refused, type Result } from '../../domain/result';
import type { EnrollingPort, SampleTrouble } from '../../voice/enrolling';
import type { HearingTrouble } from '../../voice/hearing';
import type { VoiceSample } from '@stowcall/web-speech/core';

export type ReadTrouble = SampleTrouble | 'silence';

/** Why a try gave nothing although the ear works; `stopped` is none of the reader's doing. */
export type Miss = Exclude<ReadTrouble, HearingTrouble | 'stopped'>;

/** Whether no further try can give anything, because the ear itself does not work. */
export function isDeaf(reason: ReadTrouble): reason is HearingTrouble {
  return reason !== 'stopped' && reason !== 'silence' && reason !== 'not-these-words' && reason !== 'too-loud';
}

/** Time to look at a line and begin to say it, in milliseconds. */
export const SILENCE_MS = 8_000;

/** Like the port's `sample`, but ended when nobody has said anything for a while. */
export async function sampleInTime(port: EnrollingPort, words: string): Promise<Result<VoiceSample, ReadTrouble>> {
  let isSilent = false;
  const timer = setTimeout(() => {
    isSilent = true;
    port.stopSampling();
  }, SILENCE_MS);
  const sample = await port.sample(words).finally(() => clearTimeout(timer));
  if (isSilent && !sample.ok && sample.reason === 'stopped') return refused('silence', 'Nothing was heard.');
  return sample;
}
