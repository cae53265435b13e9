/** How the voice engine is asked for one sentence. */
import type { FliteRequest, FliteVoice } from './flite';

/** The draft lets an engine narrow the ranges: beyond these nobody understands the voice. */
const RATES = { least: 0.5, most: 3 };
const PITCHES = { least: 0.5, most: 2 };

/** The same request for speaking a sentence and for making it ready. */
export function requestFor(
  text: string,
  how: { readonly voice: FliteVoice; readonly rate: number; readonly pitch: number },
): FliteRequest {
  const rate = Math.min(RATES.most, Math.max(RATES.least, how.rate));
  return { voice: how.voice, text, stretch: Math.round((speedFor(how.pitch) / rate) * 1000) / 1000 };
}

/** The engine's voices have no pitch of their own to set: the sound is played faster and made longer to match. */
export function speedFor(pitch: number): number {
  return Math.min(PITCHES.most, Math.max(PITCHES.least, pitch));
}
