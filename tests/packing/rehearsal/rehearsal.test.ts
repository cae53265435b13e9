/** A trainee hears a procedure at their own pace. */
import { initialTransition, transition } from 'xstate';
import { describe, expect, it } from 'vitest';
import type { Command } from '../../../src/domain/command';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { rehearsalMachine, rehearsalViewOf } from '../../../src/packing/rehearsal/rehearsal';
import { SPRAT } from '../fixture';
import { parseCommand } from '../story';

function rehearse(...lines: readonly string[]) {
  let [snapshot] = initialTransition(rehearsalMachine, { procedure: SPRAT, rate: 1 });
  for (const line of lines) {
    [snapshot] = transition(rehearsalMachine, snapshot, { type: 'COMMAND', command: parseCommand(line.split(' ')) });
  }
  return { view: rehearsalViewOf(snapshot), status: snapshot.status, snapshot };
}

describe('a rehearsal', () => {
  it('begins at the first stage and reads all of it', () => {
    const { view } = rehearse();
    expect(view).toMatchObject({
      procedure: 'Sprat main',
      revision: 'C',
      number: 1,
      of: 8,
      title: 'Lay out',
      notice: null,
    });
    expect(view.prompt.say).toBe('Stage one of eight. Lay out. Do what Lay out asks. Caution: Keep off the lines.');
    expect(view.prompt.show).toContain('Stage 1 of 8.');
  });

  it('reads a hold as part of its stage', () => {
    const { view } = rehearse('next', 'next');
    expect(view.prompt.say).toContain('Then an inspection hold: Layout. Layout as the procedure says.');
    expect(view.hold).toContain('Layout');
  });

  it('goes to any stage, and to none that is not there', () => {
    expect(rehearse('goToStage 4').view).toMatchObject({ number: 4 });
    expect(rehearse('goToStage 9').view).toMatchObject({ number: 1, notice: { text: 'There are stages 1 to 8.' } });
    expect(rehearse('goToStage 9', 'next').view).toMatchObject({ number: 2, notice: null });
  });

  it('says again with the same words and a new key', () => {
    const first = rehearse('next').view.prompt;
    const again = rehearse('next', 'sayAgain').view.prompt;
    expect(again.say).toBe(first.say);
    expect(again.key).not.toBe(first.key);
  });

  it('speaks slower and faster between half and double', () => {
    expect(rehearse('slower').view.rate).toBe(0.75);
    const slowest = rehearse('slower', 'slower', 'slower').view;
    expect(slowest).toMatchObject({ rate: 0.5, notice: { tone: 'refusal' } });
    expect(slowest.legal.map(({ name }) => name)).not.toContain('slower');
    expect(rehearse('faster', 'faster', 'faster', 'faster', 'faster').view.rate).toBe(2);
  });

  it('has no next stage after the last one', () => {
    const { view } = rehearse('goToStage 8');
    expect(view.legal.map(({ name }) => name)).not.toContain('next');
    expect(view.prompt.say).toContain('This was the last stage.');
    expect(rehearse('goToStage 8', 'next').view).toMatchObject({ number: 8, notice: { tone: 'refusal' } });
  });

  it('ends with finish', () => {
    const { view, status } = rehearse('finish');
    expect(status).toBe('done');
    expect(view.legal).toEqual([]);
  });

  it('takes nothing that is not legal', () => {
    const { snapshot, view } = rehearse('next');
    const legal = view.legal.map(({ name }) => name);
    for (const name of COMMAND_NAMES) {
      if (legal.includes(name)) continue;
      const command = { name, count: 1, noun: 'stows', value: 1, unit: null, number: 1 } as unknown as Command;
      const [next] = transition(rehearsalMachine, snapshot, { type: 'COMMAND', command });
      expect(rehearsalViewOf(next)).toMatchObject({ number: 2, rate: 1, notice: { tone: 'refusal' } });
    }
  });
});

describe('a rehearsal on the screen', () => {
  const control = (view: ReturnType<typeof rehearse>['view'], name: string) =>
    view.legal.find((one) => one.name === name);

  it('offers every stage by number and title', () => {
    const input = control(rehearse().view, 'goToStage')?.input;
    expect(input).toEqual({
      kind: 'choice',
      options: SPRAT.stages.map(({ number, title }) => ({ number, label: title })),
      note: null,
    });
  });

  it('offers the end as the main thing at the last stage only', () => {
    expect(control(rehearse().view, 'finish')?.main).toBe(false);
    expect(control(rehearse('goToStage 8').view, 'finish')?.main).toBe(true);
  });

  it('offers no faster than double', () => {
    const fastest = rehearse('faster', 'faster', 'faster', 'faster', 'faster').view;
    expect(control(fastest, 'faster')).toBeUndefined();
    expect(control(fastest, 'slower')).toBeDefined();
  });

  it('says why something is refused before it reads on, and has no hold where there is none', () => {
    const refused = rehearse('goToStage 9').view;
    expect(refused.prompt.say).toBe(`There are stages 1 to 8. ${rehearse().view.prompt.say}`);
    expect(refused.hold).toBeNull();
    expect(rehearse('stageComplete').view.notice?.text).toMatch(/^Not now: [a-z ]+\.$/);
  });

  it('never gives two prompts one key', () => {
    const keys = [[], ['next'], ['next', 'sayAgain'], ['next', 'sayAgain', 'sayAgain']].map(
      (lines) => rehearse(...lines).view.prompt.key,
    );
    expect(new Set(keys).size).toBe(4);
    expect(keys.map(Number).every((key, index) => index === 0 || key > Number(keys[index - 1]))).toBe(true);
  });
});
