/** The queue of the W3C Web Speech API draft, section "The SpeechSynthesis Interface": order, states, pause and resume. */
import { beforeEach, describe, expect, it } from 'vitest';
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

describe('the queue', () => {
  it('speaks in order, one at a time', async () => {
    for (const name of ['a', 'b']) synthesis.speak(utterance('Text.', name));
    await settle();
    expect(output.played).toHaveLength(1);
    expect(states()).toEqual({ pending: true, speaking: true, paused: false });
    await output.finish();
    await output.finish();
    expect(log).toEqual(['a:start', 'a:boundary', 'a:end', 'b:start', 'b:boundary', 'b:end']);
  });

  it('cancel interrupts the one being spoken, cancels the rest, and nothing ends twice', async () => {
    for (const name of ['a', 'b', 'c']) synthesis.speak(utterance('Text.', name));
    await settle();
    synthesis.cancel();
    await output.finish();
    expect(log).toEqual(['a:start', 'a:boundary', 'a:interrupted', 'b:canceled', 'c:canceled']);
    expect(output.played.map(({ end }) => end)).toEqual(['stopped']);
    expect(states()).toEqual({ pending: false, speaking: false, paused: false });
  });

  it('a text cancelled before its sound was made is never heard', async () => {
    engine.held = true;
    synthesis.speak(utterance('Old.', 'old'));
    await settle();
    synthesis.cancel();
    synthesis.speak(utterance('New.', 'new'));
    engine.release();
    await settle();
    await output.finish();
    expect(log).toEqual(['old:canceled', 'new:start', 'new:boundary', 'new:end']);
    expect(output.played).toHaveLength(1);
  });

  it('cancel inside a start event stops that text too', async () => {
    const made = utterance('Text.', 'a');
    made.onstart = () => synthesis.cancel();
    synthesis.speak(made);
    await settle();
    await output.finish();
    expect(log).toEqual(['a:start', 'a:interrupted']);
  });

  it('speaking again from an end event works', async () => {
    const first = utterance('One.', 'a');
    first.onend = () => synthesis.speak(utterance('Two.', 'b'));
    synthesis.speak(first);
    await settle();
    await output.finish();
    await output.finish();
    expect(log.at(-1)).toBe('b:end');
  });

  it('the same utterance may be spoken again after its end', async () => {
    const made = utterance('Text.', 'a');
    synthesis.speak(made);
    await settle();
    await output.finish();
    synthesis.speak(made);
    await settle();
    await output.finish();
    expect(log.filter((line) => line === 'a:end')).toHaveLength(2);
  });
});

describe('pause and resume', () => {
  it('hold a sound in the middle', async () => {
    synthesis.speak(utterance('Text.', 'a'));
    await settle();
    synthesis.pause();
    synthesis.pause();
    expect(output.played[0]?.paused).toBe(true);
    // The sound is held at once; what the page is told of it comes with the event.
    expect(states()).toEqual({ pending: false, speaking: true, paused: false });
    await settle();
    expect(states()).toEqual({ pending: false, speaking: true, paused: true });
    synthesis.resume();
    synthesis.resume();
    expect(output.played[0]?.paused).toBe(false);
    await output.finish();
    expect(log).toEqual(['a:start', 'a:boundary', 'a:pause', 'a:resume', 'a:end']);
  });

  it('a pause between two sentences holds the second', async () => {
    synthesis.speak(utterance('One. Two.', 'a'));
    await settle();
    synthesis.pause();
    await output.finish();
    expect(output.played).toHaveLength(1);
    synthesis.resume();
    await settle();
    expect(output.played).toHaveLength(2);
  });

  it('speak while paused waits without a pause event', async () => {
    synthesis.pause();
    synthesis.speak(utterance('Text.', 'a'));
    await settle();
    expect(states()).toEqual({ pending: true, speaking: false, paused: true });
    expect(log).toEqual([]);
    synthesis.resume();
    await settle();
    await output.finish();
    expect(log).toEqual(['a:start', 'a:boundary', 'a:end']);
  });

  it('cancel while paused empties the queue and stays paused', async () => {
    synthesis.pause();
    synthesis.speak(utterance('Text.', 'a'));
    await settle();
    synthesis.cancel();
    await settle();
    expect(log).toEqual(['a:canceled']);
    expect(states()).toEqual({ pending: false, speaking: false, paused: true });
    synthesis.speak(utterance('Text.', 'b'));
    synthesis.resume();
    await settle();
    expect(log).toEqual(['a:canceled', 'b:start', 'b:boundary']);
  });
});
