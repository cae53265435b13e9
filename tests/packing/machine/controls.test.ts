/** The controls: how each is labelled, and what value it asks for. */
import { describe, expect, it } from 'vitest';
import type { CommandName } from '../../../src/domain/command';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { WORDING } from '../../../src/packing/machine/legal';
import { reach } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';
const at = (place: string, assembly = 'P1'): PackDriver => {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place, { assembly });
  return driver;
};

describe('the controls', () => {
  const LABELS: Readonly<Record<CommandName, string>> = {
    stageComplete: 'Stage complete',
    affirm: 'Affirm',
    negative: 'Negative',
    sayAgain: 'Say again',
    whatRemains: 'What remains',
    standBy: 'Stand by',
    resume: 'Resume',
    correction: 'Correction',
    callInspector: 'Call inspector',
    count: 'Count',
    stow: 'Stow',
    measured: 'Measured',
    itemPlaced: 'Item placed',
    itemRemoved: 'Item removed',
    releaseHold: 'Release hold',
    returnHold: 'Send back for rework',
    readList: 'Read the list',
    finding: 'Finding',
    nothingFound: 'Nothing found',
    goToStage: 'Stage',
    reopenStage: 'Reopen stage',
    itemsSeen: 'All items seen',
    cardPlaced: 'Card in pocket',
    stopAndTag: 'Stop and tag',
    next: 'Next',
    slower: 'Slower',
    faster: 'Faster',
    finish: 'Finish',
  };

  it('are labelled so', () => {
    expect(Object.fromEntries(COMMAND_NAMES.map((name) => [name, WORDING[name].label]))).toEqual(LABELS);
  });

  it.each([
    ['identifying', []],
    ['toolOut:paddle', ['count']],
    ['stage:lay', ['stageComplete']],
    ['stage:cells', ['count']],
    ['stage:tie', ['itemPlaced']],
    ['inspecting', ['releaseHold', 'returnHold']],
    ['stage:line', ['measured']],
    ['stage:stows', ['stow']],
    ['stage:untie', ['itemRemoved']],
    ['blocked', ['stopAndTag']],
  ])('make plain what is expected at %s: %j', (place, names) => {
    const { legal } = at(place, place === 'blocked' ? 'REPAIR' : 'P1').view;
    expect(legal.filter(({ main }) => main).map(({ name }) => name)).toEqual(names);
  });

  it.each([
    ['identifying', []],
    ['toolOut:paddle', ['count']],
    ['stage:lay', ['stageComplete', 'correction', 'callInspector']],
    ['stage:stows', ['stow', 'count', 'stageComplete', 'correction', 'callInspector', 'reopenStage']],
    ['hold:layout', ['readList', 'correction', 'callInspector', 'reopenStage']],
    ['toolCheck:paddle', ['count', 'correction', 'reopenStage']],
    ['items:closing', ['itemsSeen', 'correction', 'reopenStage']],
    ['toolBack:paddle', ['count', 'reopenStage']],
    ['sign', ['correction', 'reopenStage']],
    ['card', ['cardPlaced']],
    ['hold:last', ['readList', 'correction', 'callInspector']],
  ])('at %s are the usual ones and %j', (place, names) => {
    const usual = ['sayAgain', 'whatRemains', 'standBy', 'stopAndTag'];
    const { legal } = at(place).view;
    expect(legal.map(({ name }) => name).sort()).toEqual([...usual, ...names].sort());
  });

  it('for a count, a length and a press are what the value needs', () => {
    const input = (place: string, name: CommandName) => at(place).view.legal.find((one) => one.name === name)?.input;
    expect(input('toolOut:paddle', 'count')).toEqual({ kind: 'count', noun: 'tools', max: 200 });
    expect(input('stage:cells', 'count')).toEqual({ kind: 'count', noun: 'cells', max: 200 });
    expect(input('stage:line', 'measured')).toEqual({ kind: 'quantity', unit: 'in' });
    expect(input('stage:lay', 'stageComplete')).toEqual({ kind: 'press' });
  });

  it('for a count say what is counted, with an example that suggests nothing as the phrase', () => {
    const count = (place: string) => at(place).view.legal.find(({ name }) => name === 'count');
    expect(count('toolOut:cord')).toMatchObject({ label: 'Count tools', phrase: 'ninety-eight tools' });
    expect(count('stage:cells')).toMatchObject({ label: 'Count cells', phrase: 'ninety-eight cells' });
  });
});
