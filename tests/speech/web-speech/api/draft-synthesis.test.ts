/**
 * Each sentence of the Web Speech API draft (W3C Community Group, WebAudio/web-speech-api, read at 0a1b233) about
 * synthesis that says "must" or "throw", in our words, with the heading under which it stands.
 */
import { describe, expect, it } from 'vitest';
import { SpeechSynthesis } from '../../../../src/speech/web-speech/api/synthesis';
import { ENGINE_VOICES } from '../../../../src/speech/web-speech/synthesis/engine';
import {
  SpeechSynthesisErrorEvent,
  SpeechSynthesisEvent,
  SpeechSynthesisUtterance,
  SYNTHESIS_EVENTS,
} from '../../../../src/speech/web-speech/api/utterance';
import { fakeEngine, fakeOutput, settle } from '../synthesis/synthesis-fakes';

function rig() {
  const engine = fakeEngine();
  const output = fakeOutput();
  const synthesis = new SpeechSynthesis({ engine, output, voices: ENGINE_VOICES });
  const events: SpeechSynthesisEvent[] = [];
  const utterance = (text: string): SpeechSynthesisUtterance => {
    const made = new SpeechSynthesisUtterance(text);
    for (const type of [...SYNTHESIS_EVENTS, 'mark', 'error']) {
      made.addEventListener(type, (event) => events.push(event as SpeechSynthesisEvent));
    }
    return made;
  };
  const names = () => events.map(({ type }) => type);
  return { engine, output, synthesis, events, utterance, names };
}

/** Speaks one text of two sentences to its end. */
async function spoken(text = 'One. Two.') {
  const made = rig();
  const utterance = made.utterance(text);
  made.synthesis.speak(utterance);
  await settle();
  await made.output.finish();
  await made.output.finish();
  return { ...made, spoken: utterance };
}

type Row = readonly [heading: string, sentence: string, check: () => void | Promise<void>];

const ROWS: readonly Row[] = [
  [
    'speak()',
    'throws for an utterance that another SpeechSynthesis has taken, and may be called again for its own',
    async () => {
      const { synthesis, output } = rig();
      const utterance = new SpeechSynthesisUtterance('One.');
      synthesis.speak(utterance);
      expect(() => rig().synthesis.speak(utterance)).toThrow(expect.objectContaining({ name: 'InvalidStateError' }));
      await settle();
      await output.finish();
      expect(() => synthesis.speak(utterance)).not.toThrow();
    },
  ],
  [
    'getVoices()',
    'is empty where there is no voice',
    () => {
      const { engine, output } = rig();
      expect(new SpeechSynthesis({ engine, output, voices: [] }).getVoices()).toEqual([]);
    },
  ],
  [
    'text',
    'tags that the engine does not know are stripped and the text is spoken, each word where it stood',
    async () => {
      const text =
        '<?xml version="1.0"?><speak version="1.1"><s>Fold &lt;A&gt;.</s> <!-- no --><emphasis>Stow.</emphasis></speak>';
      const { engine, events } = await spoken(text);
      const words = engine.asked.map(({ request }) => request.text.split(/\s+/).join(' '));
      expect(words).toEqual(['Fold < A> .', 'Stow.']);
      const boundaries = events.filter(({ type }) => type === 'boundary').map(({ charIndex }) => charIndex);
      expect(boundaries).toEqual([text.indexOf('Fold'), text.indexOf('Stow.')]);
    },
  ],
  [
    'text',
    'that is no SSML document is left as it is',
    async () => {
      const { engine } = await spoken('Is 3 < 4? Yes > no.');
      expect(engine.asked.map(({ request }) => request.text)).toEqual(['Is 3 < 4?', 'Yes > no.']);
    },
  ],
  ['voice', 'is null to begin with', () => expect(new SpeechSynthesisUtterance('x').voice).toBeNull()],
  [
    'voice',
    'that was chosen from getVoices() is the one that speaks',
    async () => {
      for (const [index, { name }] of ENGINE_VOICES.entries()) {
        const { engine, synthesis, utterance } = rig();
        const said = utterance('One.');
        said.voice = synthesis.getVoices()[index] ?? null;
        synthesis.speak(said);
        await settle();
        expect(engine.asked[0]?.request.voice).toBe(name);
      }
    },
  ],
  [
    'voice',
    'that is null is the default one',
    async () => {
      const { engine, synthesis } = await spoken();
      const [main] = synthesis.getVoices().filter((voice) => voice.default);
      expect(engine.asked[0]?.request.voice).toBe(main?.name);
    },
  ],
  [
    'utterance events',
    'are SpeechSynthesisEvents, neither bubble nor can be cancelled, and carry their utterance',
    async () => {
      const { events, spoken: utterance } = await spoken();
      expect(events.length).toBeGreaterThan(3);
      for (const event of events) {
        expect(event).toBeInstanceOf(SpeechSynthesisEvent);
        expect([event.bubbles, event.cancelable, event.utterance]).toEqual([false, false, utterance]);
      }
    },
  ],
  [
    'error',
    'is a SpeechSynthesisErrorEvent',
    () => {
      const { synthesis, utterance, events } = rig();
      synthesis.speak(utterance('One.'));
      synthesis.cancel();
      expect(events[0]).toBeInstanceOf(SpeechSynthesisErrorEvent);
    },
  ],
  [
    'end, error',
    'exclude one another: after either the other does not come',
    async () => {
      const good = await spoken();
      good.synthesis.cancel();
      await settle();
      expect(good.names().filter((name) => name === 'end' || name === 'error')).toEqual(['end']);
      const bad = rig();
      bad.synthesis.speak(bad.utterance('One.'));
      await settle();
      bad.synthesis.cancel();
      await bad.output.finish();
      expect(bad.names().filter((name) => name === 'end' || name === 'error')).toEqual(['error']);
    },
  ],
  [
    'mark',
    'is not told, for the engine tells of none',
    async () => expect((await spoken()).names()).not.toContain('mark'),
  ],
  [
    'boundary',
    'is told for each sentence, which is what the engine tells of',
    async () => {
      const { events } = await spoken();
      const boundaries = events.filter(({ type }) => type === 'boundary');
      expect(boundaries.map(({ name }) => name)).toEqual(['sentence', 'sentence']);
    },
  ],
  [
    'charIndex, charLength, elapsedTime',
    'say where each sentence stands and how long it has gone on',
    async () => {
      const { events } = await spoken();
      const told = events
        .filter(({ type }) => type === 'boundary')
        .map(({ charIndex, charLength, elapsedTime }) => [charIndex, charLength, elapsedTime]);
      expect(told).toEqual([
        [0, 4, 0],
        [5, 4, 1],
      ]);
    },
  ],
  [
    'name',
    'is empty for every event but boundaries and marks',
    async () => {
      const { events } = await spoken();
      expect(events.filter(({ type, name }) => type !== 'boundary' && name !== '')).toEqual([]);
    },
  ],
];

describe('the draft on synthesis', () => {
  it.each(ROWS)('%s: %s', (_heading, _sentence, check) => check());
});
