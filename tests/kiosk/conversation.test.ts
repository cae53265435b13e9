/** Turn-taking: the ear is closed while the kiosk speaks, and open for exactly what is legal when it does not. */
import { describe, expect, it } from 'vitest';
import type { Command } from '../../src/domain/command';
import { createConversation, type ConversationState } from '../../src/kiosk/conversation';
import type { Prompt } from '../../src/packing/machine/view';
import type { Vocabulary } from '../../src/voice/hearing';
import { fakeEar } from '../fakes/ear';
import { fakeMouth } from '../fakes/mouth';

const prompt = (key: string, say = key): Prompt => ({ key, say, show: say });
const STAGE: Vocabulary = { commands: ['stageComplete', 'sayAgain'], nouns: [] };
const READ_BACK: Vocabulary = { commands: ['affirm', 'negative'], nouns: [] };

function rig(): {
  ear: ReturnType<typeof fakeEar>;
  mouth: ReturnType<typeof fakeMouth>;
  commands: Command[];
  states: ConversationState[];
  samples: string[];
  talk: ReturnType<typeof createConversation>;
} {
  const ear = fakeEar();
  const mouth = fakeMouth({ instant: false });
  const commands: Command[] = [];
  const states: ConversationState[] = [];
  const samples: string[] = [];
  const talk = createConversation({
    ear,
    mouth,
    onCommand: (heard) => commands.push(heard.command),
    onState: (state) => states.push(state),
    sample: (words) => ear.sample(words),
    onSample: (sample) => samples.push(sample.ok ? sample.value.words : sample.reason),
  });
  return { ear, mouth, commands, states, samples, talk };
}

const settle = (): Promise<void> => new Promise((done) => setTimeout(done, 0));

describe('conversation', () => {
  it('hears nothing while it speaks, and the legal commands after', async () => {
    const { ear, mouth, commands, talk } = rig();
    talk.present(prompt('a', 'Stage complete, stage complete'), STAGE, 1);
    expect(ear.open()).toBeNull();
    ear.speak({ name: 'stageComplete' });
    expect(commands).toEqual([]);
    await mouth.finish();
    await settle();
    expect(ear.open()).toEqual(STAGE);
    ear.speak({ name: 'stageComplete' });
    expect(commands).toEqual([{ name: 'stageComplete' }]);
  });

  it('does not say the same prompt twice, and says a new one at once', async () => {
    const { mouth, talk } = rig();
    talk.present(prompt('a'), STAGE, 1);
    talk.present(prompt('a'), STAGE, 1);
    talk.present(prompt('b'), STAGE, 1);
    await settle();
    expect(mouth.said).toEqual(['a', 'b']);
  });

  it('a prompt that is cut off does not open the ear under the next one', async () => {
    const { ear, mouth, talk } = rig();
    talk.present(prompt('a'), STAGE, 1);
    talk.present(prompt('b'), READ_BACK, 1);
    await settle();
    expect(ear.open()).toBeNull();
    await mouth.finish();
    await settle();
    expect(ear.open()).toEqual(READ_BACK);
  });

  it('keeps the ear closed where nothing is legal', async () => {
    const { ear, mouth, talk } = rig();
    talk.present(prompt('a'), null, 1);
    await mouth.finish();
    await settle();
    expect(ear.open()).toBeNull();
  });

  it('shows one noise, and asks aloud at the second', async () => {
    const { ear, mouth, states, commands, talk } = rig();
    talk.present(prompt('a'), STAGE, 1);
    await mouth.finish();
    await settle();
    ear.noise();
    expect(states.at(-1)?.heard).toContain('Not heard');
    expect(mouth.said).toEqual(['a']);
    ear.noise();
    expect(mouth.said.at(-1)).toContain('Not heard');
    expect(ear.open()).toBeNull();
    expect(commands).toEqual([]);
  });

  it('in a room that is too loud points to hands and card', async () => {
    const { ear, mouth, talk } = rig();
    talk.present(prompt('a'), STAGE, 1);
    await mouth.finish();
    await settle();
    ear.noise(true);
    ear.noise(true);
    expect(mouth.said.at(-1)).toMatch(/Too loud.*keys.*command card/);
  });

  it('two near candidates become a question, never a guess', async () => {
    const { ear, mouth, commands, talk } = rig();
    talk.present(prompt('a'), STAGE, 1);
    await mouth.finish();
    await settle();
    ear.unsure(['fifteen stows', 'fifty stows']);
    expect(commands).toEqual([]);
    expect(mouth.said.at(-1)).toBe('Not sure whether fifteen stows or fifty stows was said. Repeat it, or press.');
  });

  it('asks about nothing where there is nothing to choose from', async () => {
    const { ear, mouth, states, talk } = rig();
    talk.present(prompt('a'), STAGE, 1);
    await mouth.finish();
    await settle();
    ear.unsure([]);
    expect(states.at(-1)?.heard).toMatch(/^Not heard/);
    expect(mouth.said).toEqual(['a']);
  });

  it('after an interjection the ear opens for what was legal before', async () => {
    const { ear, mouth, talk } = rig();
    talk.present(prompt('a'), STAGE, 1);
    await mouth.finish();
    await settle();
    talk.interject('The camera was unplugged.');
    expect(ear.open()).toBeNull();
    await mouth.finish();
    await settle();
    expect(ear.open()).toEqual(STAGE);
  });

  it('stopped, it neither speaks nor hears', async () => {
    const { ear, mouth, talk } = rig();
    talk.present(prompt('a'), STAGE, 1);
    talk.stop();
    await settle();
    expect(ear.open()).toBeNull();
    talk.present(prompt('a'), STAGE, 1);
    expect(mouth.said).toEqual(['a', 'a']);
  });
});

describe('a line that is read for enrolment', () => {
  const LINE = { line: 'stand by' };

  it('is heard after the prompt and not under it, and is never a command', async () => {
    const { ear, mouth, commands, samples, talk } = rig();
    talk.present(prompt('a', 'Stand by'), LINE, 1);
    expect(ear.sampling()).toBeNull();
    await mouth.finish();
    await settle();
    expect(ear.sampling()).toBe('stand by');
    ear.read('stand by');
    await settle();
    expect([samples, commands]).toEqual([['stand by'], []]);
    expect(ear.sampling()).toBeNull();
  });

  it('without words to say the ear is opened at once', async () => {
    const { ear, mouth, talk, states } = rig();
    talk.present(prompt('a', ''), LINE, 1);
    await settle();
    expect(mouth.said).toEqual([]);
    expect([ear.sampling(), states.at(-1)?.listening]).toEqual(['stand by', true]);
  });

  it('cut off by a trouble that is told, it is opened anew afterwards and no try is counted', async () => {
    const { ear, mouth, samples, talk } = rig();
    talk.present(prompt('a', ''), LINE, 1);
    talk.interject('The camera was unplugged.');
    expect(ear.sampling()).toBeNull();
    await mouth.finish();
    await settle();
    expect([ear.sampling(), samples]).toEqual(['stand by', []]);
  });

  it('is never a command, whatever an ear should tell meanwhile', () => {
    const { ear, commands, talk } = rig();
    talk.present(prompt('a', ''), LINE, 1);
    ear.listen(STAGE);
    ear.speak({ name: 'stageComplete' });
    expect(commands).toEqual([]);
  });

  it('the next line takes its place', async () => {
    const { ear, samples, talk } = rig();
    talk.present(prompt('a', ''), LINE, 1);
    talk.present(prompt('b', ''), { line: 'affirm' }, 1);
    await settle();
    expect([ear.sampling(), samples]).toEqual(['affirm', []]);
  });

  it('that can not be heard at all is told, though the ear was closed meanwhile', async () => {
    const { ear, samples, talk } = rig();
    talk.present(prompt('a', ''), LINE, 1);
    ear.unplug();
    talk.interject('The microphone was unplugged.');
    await settle();
    expect(samples).toEqual(['unplugged']);
  });

  it('is over when the conversation stops', async () => {
    const { ear, samples, talk } = rig();
    talk.present(prompt('a', ''), LINE, 1);
    talk.stop();
    await settle();
    expect([ear.sampling(), samples]).toEqual([null, []]);
  });
});
