/** The interface over an engine and an output that a test moves by hand, and a log of the events of its utterances. */
import { SpeechSynthesis } from '../../../../src/speech/web-speech/api/synthesis';
import type { SpeechSynthesisErrorEvent } from '../../../../src/speech/web-speech/api/utterance';
import { SpeechSynthesisUtterance, SYNTHESIS_EVENTS } from '../../../../src/speech/web-speech/api/utterance';
import { ENGINE_VOICES } from '../../../../src/speech/web-speech/synthesis/engine';
import { fakeEngine, fakeOutput } from '../synthesis/synthesis-fakes';

export type SynthesisRig = ReturnType<typeof synthesisRig>;

export function synthesisRig() {
  const engine = fakeEngine();
  const output = fakeOutput();
  const synthesis = new SpeechSynthesis({ engine, output, voices: ENGINE_VOICES });
  const log: string[] = [];
  return {
    engine,
    output,
    synthesis,
    log,
    /** An utterance that writes its events into `log` as `name:event`. */
    utterance: (text: string, name = text): SpeechSynthesisUtterance => {
      const made = new SpeechSynthesisUtterance(text);
      for (const type of SYNTHESIS_EVENTS) made.addEventListener(type, () => log.push(`${name}:${type}`));
      made.addEventListener('error', (event) => log.push(`${name}:${(event as SpeechSynthesisErrorEvent).error}`));
      return made;
    },
    states: () => ({ pending: synthesis.pending, speaking: synthesis.speaking, paused: synthesis.paused }),
  };
}
