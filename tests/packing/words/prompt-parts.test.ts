/** The parts of a prompt joined are the prompt, to the ear and to the eye; and each part is of the kind that a screen expects. */
import { createActor } from 'xstate';
import { describe, expect, it } from 'vitest';
import type { StepPrompt } from '../../../src/packing/machine/view';
import { rehearsalMachine, rehearsalViewOf } from '../../../src/packing/rehearsal/rehearsal';
import { part, shownOf } from '../../../src/packing/words/prompt-parts';
import { reach, step } from '../autopilot';
import { expectJoined } from './expect-joined';
import { LOFT, SPRAT } from '../fixture';
import { PackDriver } from '../pack-driver';

const kindsOf = ({ parts }: StepPrompt): readonly string[] => [...new Set(parts.map(({ kind }) => kind))];

function at(place: string, assembly = 'P1'): PackDriver {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place, { assembly });
  return driver;
}

describe('the parts joined', () => {
  it('are the prompt at every step of a pack', () => {
    const driver = new PackDriver({ loft: LOFT });
    do expectJoined(driver.view.prompt);
    while (step(driver));
  });

  it('are the prompt of a rehearsal, with a notice and without', () => {
    const actor = createActor(rehearsalMachine, { input: { procedure: SPRAT, rate: 1 } }).start();
    for (const name of ['sayAgain', 'stow', ...SPRAT.stages.slice(1).map(() => 'next' as const)] as const) {
      actor.send({ type: 'COMMAND', command: { name } });
      expectJoined(rehearsalViewOf(actor.getSnapshot()).prompt);
    }
    actor.stop();
  });
});

describe('the kinds of the parts', () => {
  it.each([
    ['identifying', ['what', 'todo']],
    ['inspect:canopy', ['notice', 'todo', 'what', 'say']],
    ['stage:lay', ['what', 'lines', 'caution', 'say']],
    ['stage:stows', ['notice', 'what', 'lines', 'todo']],
    ['hold:layout', ['what', 'todo', 'say']],
    ['inspecting', ['notice', 'say']],
    ['items:closing', ['todo', 'say']],
    ['sign', ['what', 'todo']],
    ['card', ['what', 'todo', 'say']],
    ['recorded', ['notice', 'what', 'todo']],
  ])('at %s are %j', (place, kinds) => {
    const driver = place === 'identifying' ? new PackDriver({ loft: LOFT }) : at(place);
    expect(kindsOf(driver.view.prompt)).toEqual(kinds);
  });

  it('tell a list of findings from what is asked', () => {
    const driver = at('inspecting');
    driver.command({ name: 'returnHold' });
    const { parts } = driver.view.prompt;
    expect(shownOf(parts, ['todo', 'say'])).toBe('Back for rework. Which finding?');
    expect(shownOf(parts, ['choices'])).toMatch(/^Number 1: Cells twisted\. .*: Damage\.$/);
  });

  it('tell failed checks from what can be done about them', () => {
    const { parts } = at('blocked', 'REPAIR').view.prompt;
    expect(shownOf(parts, ['lines'])).not.toBe('');
    expect(shownOf(parts, ['what', 'todo', 'say'])).toBe(
      'Stop. This assembly must not be packed. Say stop and tag to end this pack.',
    );
  });
});

describe('what parts show', () => {
  const parts = [part('notice', { say: 'No.', show: '' }), part('what', 'Stage 1.'), part('todo', 'Fold.')];

  it('is what those of the kinds that are asked for show, in their order', () => {
    expect(shownOf(parts, ['todo', 'what'])).toBe('Stage 1. Fold.');
    expect(shownOf(parts, ['todo'])).toBe('Fold.');
  });

  it('is nothing where there is none of them, and never the notice', () => {
    expect(shownOf(parts, ['caution'])).toBe('');
    expect(shownOf(parts, ['notice'])).toBe('');
  });
});
