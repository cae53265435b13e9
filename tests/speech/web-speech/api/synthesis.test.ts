/** Voices, texts, troubles and attributes of the W3C Web Speech API draft, section "The SpeechSynthesis Interface". */
import { beforeEach, describe, expect, it } from 'vitest';
import {
  SpeechSynthesisEvent,
  SpeechSynthesisUtterance,
  SpeechSynthesisVoice,
} from '../../../../src/speech/web-speech/api/utterance';
import { requestFor } from '../../../../src/speech/web-speech/synthesis/flite-request';
import { settle } from '../synthesis/synthesis-fakes';
import { synthesisRig, type SynthesisRig } from './synthesis-rig';

let engine: SynthesisRig['engine'];
let output: SynthesisRig['output'];
let synthesis: SynthesisRig['synthesis'];
let log: SynthesisRig['log'];
let utterance: SynthesisRig['utterance'];
let states: SynthesisRig['states'];

beforeEach(() => {
  ({ engine, output, synthesis, log, utterance, states } = synthesisRig());
});

describe('voices', () => {
  it('are all local, name their language, and one alone is the default', () => {
    const voices = synthesis.getVoices();
    expect(voices.map(({ name }) => name)).toEqual(['rms', 'slt', 'awb', 'kal16']);
    expect(voices.every(({ localService, lang }) => localService && /^en-[A-Z]{2}$/.test(lang))).toBe(true);
    expect(voices.filter((voice) => voice.default).map(({ name }) => name)).toEqual(['rms']);
    expect(new Set(voices.map(({ voiceURI }) => voiceURI)).size).toBe(4);
  });

  it.each([
    ['', 'rms'],
    ['en', 'rms'],
    ['en-GB', 'awb'],
    ['en_gb', 'awb'],
    ['en-AU', 'rms'],
  ])('language "%s" is spoken by %s', async (lang, voice) => {
    const made = utterance('Affirm.');
    made.lang = lang;
    synthesis.speak(made);
    await settle();
    expect(engine.asked.map(({ request }) => request.voice)).toEqual([voice]);
  });

  it('a language without a voice is an error, not another language', async () => {
    const made = utterance('Oui.');
    made.lang = 'fr-FR';
    synthesis.speak(made);
    await settle();
    expect(log).toEqual(['Oui.:language-unavailable']);
    expect(output.played).toHaveLength(0);
  });

  it('a voice of somebody else is an error', async () => {
    const made = utterance('Affirm.');
    made.voice = new SpeechSynthesisVoice({ name: 'rms', lang: 'en-US', default: true });
    synthesis.speak(made);
    await settle();
    expect(log).toEqual(['Affirm.:voice-unavailable']);
  });
});

describe('speaking one text', () => {
  it('waits, begins with the first sound, and ends with the last', async () => {
    engine.held = true;
    synthesis.speak(utterance('One. Two.', 'a'));
    await settle();
    expect(states()).toEqual({ pending: true, speaking: false, paused: false });
    engine.release();
    await settle();
    expect(states()).toEqual({ pending: false, speaking: true, paused: false });
    await output.finish();
    expect(log).toEqual(['a:start', 'a:boundary', 'a:boundary']);
    await output.finish();
    expect(log).toEqual(['a:start', 'a:boundary', 'a:boundary', 'a:end']);
    expect(states()).toEqual({ pending: false, speaking: false, paused: false });
  });

  it('boundary events say where each sentence stands and how long it has gone on', async () => {
    const events: SpeechSynthesisEvent[] = [];
    const made = new SpeechSynthesisUtterance('Lay it flat.  Then fold.');
    made.onboundary = (event) => events.push(event);
    synthesis.speak(made);
    await settle();
    await output.finish();
    expect(
      events.map(({ name, charIndex, charLength, elapsedTime }) => [name, charIndex, charLength, elapsedTime]),
    ).toEqual([
      ['sentence', 0, 12, 0],
      ['sentence', 14, 10, 1],
    ]);
    expect(events.every((event) => event instanceof SpeechSynthesisEvent && event.utterance === made)).toBe(true);
  });

  it('the next sentence is made while one is heard, and no more', async () => {
    synthesis.speak(utterance('One. Two. Three.'));
    await settle();
    expect(engine.asked.map(({ request }) => request.text)).toEqual(['One.', 'Two.']);
    await output.finish();
    expect(engine.asked.map(({ request }) => request.text)).toEqual(['One.', 'Two.', 'Three.']);
  });

  it.each(['', '   ', '...'])('a text without words ("%s") starts and ends', async (text) => {
    synthesis.speak(utterance(text, 'empty'));
    await settle();
    expect(log).toEqual(['empty:start', 'empty:end']);
  });

  it('changes after speak() do not count', async () => {
    const made = utterance('Affirm.');
    synthesis.speak(made);
    made.text = 'Negative.';
    made.volume = 0;
    await settle();
    expect(engine.asked[0]?.request.text).toBe('Affirm.');
    expect(output.played[0]?.volume).toBe(1);
  });
});

describe('what goes wrong', () => {
  it('an engine failure is synthesis-failed, and the next text is still spoken', async () => {
    engine.broken.add('Bad.');
    synthesis.speak(utterance('Bad.', 'bad'));
    synthesis.speak(utterance('Good.', 'good'));
    await settle();
    await output.finish();
    expect(log).toEqual(['bad:synthesis-failed', 'good:start', 'good:boundary', 'good:end']);
  });

  it('a failure in the second sentence is an error and no end', async () => {
    engine.broken.add('Two.');
    synthesis.speak(utterance('One. Two.', 'a'));
    await settle();
    await output.finish();
    expect(log).toEqual(['a:start', 'a:boundary', 'a:synthesis-failed']);
  });

  it.each([
    ['stuck', 'audio-hardware'],
    ['blocked', 'not-allowed'],
  ] as const)('output that is %s ends as %s', async (end, error) => {
    synthesis.speak(utterance('Text.', 'a'));
    await settle();
    await output.finish(end);
    expect(log.at(-1)).toBe(`a:${error}`);
    expect(synthesis.speaking).toBe(false);
  });

  it('a text above 32,767 characters is too long', async () => {
    synthesis.speak(utterance('a'.repeat(32_768), 'a'));
    await settle();
    expect(log).toEqual(['a:text-too-long']);
  });
});

describe('rate, pitch and volume', () => {
  it.each([
    ['rate', 0, 0.1],
    ['rate', 50, 10],
    ['pitch', -1, 0],
    ['pitch', 3, 2],
    ['volume', -0.5, 0],
    ['volume', 7, 1],
  ] as const)('%s %d is kept as %d', (name, given, kept) => {
    const made = new SpeechSynthesisUtterance('x');
    made[name] = given;
    expect(made[name]).toBe(kept);
  });

  it.each(['rate', 'pitch', 'volume'] as const)('%s that is no number is a TypeError', (name) => {
    const made = new SpeechSynthesisUtterance('x');
    expect(() => (made[name] = Number.NaN)).toThrow(TypeError);
    expect(made[name]).toBe(1);
  });

  it.each([
    [1, 1, 1],
    [2, 1, 0.5],
    [0.5, 1, 2],
    [0.1, 1, 2],
    [10, 1, 0.333],
    [1, 2, 2],
    [1, 0, 0.5],
    [2, 2, 1],
  ])('rate %d and pitch %d ask the engine for stretch %d', (rate, pitch, stretch) => {
    expect(requestFor('x', { voice: 'rms', rate, pitch }).stretch).toBe(stretch);
  });

  it('reach the output', async () => {
    const made = utterance('Text.');
    Object.assign(made, { volume: 0.25, pitch: 1.5 });
    synthesis.speak(made);
    await settle();
    expect(output.played[0]).toMatchObject({ volume: 0.25, speed: 1.5 });
  });
});

describe('handler attributes', () => {
  it('are called once, can be replaced, and can be taken away', async () => {
    const made = new SpeechSynthesisUtterance('Text.');
    const calls: string[] = [];
    expect(made.onstart).toBeNull();
    made.onstart = () => calls.push('first');
    made.onstart = () => calls.push('second');
    made.onend = () => calls.push('end');
    made.onend = null;
    synthesis.speak(made);
    await settle();
    await output.finish();
    expect(calls).toEqual(['second']);
    expect(made.onend).toBeNull();
  });
});
