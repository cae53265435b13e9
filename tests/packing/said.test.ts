/** A pack word for word, as a rigger hears it: whoever changes a sentence sees here where it is said, and what is said around it. */
import { describe, expect, it } from 'vitest';
import type { CommandName } from '../../src/domain/command';
import { COMMAND_NAMES } from '../../src/domain/command';
import { WORDING } from '../../src/packing/machine/legal';
import { REASON_MAX } from '../../src/packing/steps/stop/stop-work';
import { reach, step, stopNow } from './autopilot';
import { LOFT, SPRAT } from './fixture';
import { PackDriver } from './pack-driver';

const at = (place: string, assembly = 'P1'): PackDriver => {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place, { assembly });
  return driver;
};
const said = ({ view }: PackDriver): string => view.prompt.say;

const ASK_STOWS = 'Next,';
const BEFORE_VERDICT =
  'Inspector Ines. Say release hold or send back for rework within one hundred twenty seconds of the scan.';

const BAG = 'Bag, serial Papa, one, dash, Bravo, Alfa, Golf';
const CONTAINER =
  'Container, serial Papa, one, dash, Charlie, Oscar, November, Tango, Alfa, India, November, Echo, Romeo';
const CANOPY = 'Canopy, serial Papa, one, dash, Charlie, Alfa, November, Oscar, Papa, Yankee';

/** From the badge of the rigger to the signature, nothing left out. */
const WHOLE: readonly string[] = [
  'Ada, begin. Scan the bag, container and canopy, in any order.',
  'Bag, serial Papa, one, dash, Bravo, Alfa, Golf. Is that right?',
  'Scan the container or canopy.',
  'Container, serial Papa, one, dash, Charlie, Oscar, November, Tango, Alfa, India, November, Echo, Romeo. Is that right?',
  'Scan the canopy.',
  'Canopy, serial Papa, one, dash, Charlie, Alfa, November, Oscar, Papa, Yankee. Is that right?',
  'This is Assembly P1. Procedure: Sprat main, revision C. Every check has passed. ' +
    'Before anything is packed, look over each part: dry, aired and clean. Part one of three. ' +
    `${CANOPY}. Say nothing found if all five points are met, or finding and its number.`,
  `${CANOPY}: every point is met. Is that right?`,
  'The canopy is good. Part two of three. ' +
    `${BAG}. Say nothing found if all four points are met, or finding and its number.`,
  `${BAG}: every point is met. Is that right?`,
  'The bag is good. Part three of three. ' +
    `${CONTAINER}. Say nothing found if all four points are met, or finding and its number.`,
  `${CONTAINER}: every point is met. Is that right?`,
  'The container is good. Count the tools out, line by line. ' +
    'Packing paddle: how many? Count them, then say the number and the word tools.',
  'Packing paddle: two tools. Is that right?',
  'Pull-up cord: how many?',
  'Pull-up cord: one tool. Is that right?',
  'Stage one of eight. Lay out. Do what Lay out asks. Caution: Keep off the lines. ' +
    'Say stage complete when it is done.',
  'Stage two of eight. Count the cells. Do what Count the cells asks. Say the number and the word cells.',
  'seven cells. Is that right?',
  'seven cells, seven expected. Stage three of eight. Tie the nose. Do what Tie the nose asks. Put in the nose tie. Say item placed when it is in.',
  'Inspection hold one of three: Layout. Inspector. Say read the list to hear the points.',
  BEFORE_VERDICT,
  'Release: Layout. Is that right?',
  'Released: Layout. Stage four of eight. Measure the line. Do what Measure the line asks. ' +
    'The line: measure, and say the length with its unit.',
  'The line: one hundred inches. Is that right?',
  'one hundred inches, one hundred inches expected. Stage five of eight. Stow the line. Do what Stow the line asks. ' +
    'six stows of four inches, double wrap. ' +
    'Left and right are meant as seen from the mouth of the bag. ' +
    `zero of six stows. ${ASK_STOWS} left.`,
  `one of six stows. ${ASK_STOWS} right.`,
  `two of six stows. ${ASK_STOWS} left.`,
  `three of six stows. ${ASK_STOWS} right.`,
  `four of six stows. ${ASK_STOWS} left.`,
  `five of six stows. ${ASK_STOWS} right.`,
  'All six stows are done. Say stage complete to go on.',
  'Stage six of eight. Measure the rest. Do what Measure the rest asks. ' +
    'The rest of the line: measure, and say the length with its unit.',
  'The rest of the line: nineteen inches. Is that right?',
  'nineteen inches, nineteen inches expected. Inspection hold two of three: Stowing. Inspector. Say read the list to hear the points.',
  BEFORE_VERDICT,
  'Release: Stowing. Is that right?',
  'Released: Stowing. Stage seven of eight. Untie the nose. Do what Untie the nose asks. ' +
    'Take out the nose tie. Say item removed when it is out.',
  'Before the container is closed, count the tools, line by line. None may be inside. ' +
    'Packing paddle: how many are outside the pack? Count them, then say the number and the word tools.',
  'Packing paddle: two tools. Is that right?',
  'Pull-up cord: how many are outside the pack?',
  'Pull-up cord: one tool. Is that right?',
  'Look at the temporary items, one by one. In the tray must lie: nose tie. Inside must be: none. ' +
    'Say all items seen when that is so. Where one may be inside, say reopen stage and the number of the stage.',
  'Seen in the tray: nose tie. Inside: none. Is that right?',
  'Stage eight of eight. Close the bag. Do what Close the bag asks. Say stage complete when it is done.',
  'Inspection hold three of three: Closing. Inspector. Say read the list to hear the points.',
  BEFORE_VERDICT,
  'Release: Closing. Is that right?',
  'Released: Closing. All stages are done. Count the tools once more, line by line. ' +
    'Packing paddle: how many are outside the pack? Count them, then say the number and the word tools.',
  'Packing paddle: two tools. Is that right?',
  'Pull-up cord: how many are outside the pack?',
  'Pull-up cord: one tool. Is that right?',
  'Look at the temporary items, one by one. In the tray must lie: nose tie. Inside must be: none. ' +
    'Say all items seen when that is so. Where one may be inside, say reopen stage and the number of the stage.',
  'Seen in the tray: nose tie. Inside: none. Is that right?',
  'Tools, temporary items, holds and values agree. Ada, scan your badge to sign.',
  'Signed. Last day of use: 24 May 2027. ' +
    'Print the data card and put it into its pocket. Say card in pocket when it is there.',
  'Final inspection: Finished pack. Inspector. Say read the list to hear the points.',
  BEFORE_VERDICT,
  'Release: Finished pack. Is that right?',
  'Released: Finished pack. This pack is closed. The log record is complete. Last day of use: 24 May 2027. ' +
    'Print the log book page.',
];

describe('a whole pack', () => {
  it('is said so', () => {
    const driver = new PackDriver({ loft: LOFT });
    const heard = [said(driver)];
    while (step(driver)) heard.push(said(driver));
    expect(heard).toEqual(WHOLE);
  });

  it('is shown with the figures that are said as words', () => {
    expect(at('toolOut:paddle').view.prompt.show).toBe(
      'Count the tools out, line by line. Packing paddle: how many? ' +
        'Count them, then say the number and the word tools.',
    );
    expect(at('stage:stows').view.prompt.show).toBe(
      'Stage 5 of 8. Stow the line. Do what Stow the line asks. ' +
        '6 stows of 4 in, double wrap. ' +
        'Left and right are meant as seen from the mouth of the bag. 0 of 6 stows. Next, left.',
    );
    const measured = at('stage:line');
    measured.command({ name: 'measured', value: 99.5, unit: 'in' });
    expect(measured.view.readBack?.show).toBe('The line: 99 1/2 in. Is that right?');
  });
});

describe('while a step goes on only what is asked is said', () => {
  it.each([
    ['stage:lay', 'Say stage complete when it is done.'],
    ['hold:layout', 'Waiting for the inspector: look first, then scan your badge.'],
    ['toolBack:paddle', 'Packing paddle: how many are outside the pack?'],
    ['items:closing', 'In the tray must lie: nose tie. Inside must be: none. Say all items seen when that is so.'],
    ['card', 'Print the data card and put it into its pocket. Say card in pocket when it is there.'],
    ['sign', 'Ada, scan your badge to sign.'],
    ['blocked', 'This assembly must not be packed. Say stop and tag to end this pack.'],
  ])('at %s: %s', (place, asked) => {
    const driver = at(place, place === 'blocked' ? 'REPAIR' : 'P1');
    driver.command({ name: 'stow' });
    expect(said(driver)).toBe(`Not now: stow. ${asked}`);
  });

  it('at the first scan', () => {
    const driver = new PackDriver({ loft: LOFT });
    driver.command({ name: 'stow' });
    expect(said(driver)).toBe('Not now: stow. Scan the bag, container or canopy.');
  });
});

describe('say again', () => {
  it('repeats what was refused, and then the whole step', () => {
    const driver = at('stage:cells');
    driver.command({ name: 'stow' });
    driver.command({ name: 'sayAgain' });
    expect(said(driver)).toBe(
      'Not now: stow. Stage two of eight. Count the cells. Do what Count the cells asks. ' +
        'Say the number and the word cells.',
    );
  });
});

describe('standing by', () => {
  const ask = 'Say resume packing to go on. To take over, another rigger scans a badge.';

  it.each([
    ['identifying', 'identification'],
    ['toolOut:paddle', 'the count of tools out'],
    ['stage:lay', 'stage one, Lay out'],
    ['hold:layout', 'the hold after stage three, Layout'],
    ['toolCheck:paddle', 'the count of tools before closing'],
    ['items:closing', 'the temporary items'],
    ['toolBack:paddle', 'the count of tools back'],
    ['sign', 'the signature'],
    ['card', 'the data card'],
    ['hold:last', 'the final inspection, Finished pack'],
  ])('at %s says where, once', (place, where) => {
    const driver = at(place);
    driver.command({ name: 'standBy' });
    expect(said(driver)).toBe(`Standing by at ${where}. ${ask}`);
    driver.command({ name: 'stow' });
    expect(said(driver)).toBe(`Not now: stow. ${ask}`);
  });
});

describe('a return', () => {
  it('is asked and said so, down to what must come out first', () => {
    const driver = at('hold:layout');
    driver.badge('B-ines');
    driver.command({ name: 'returnHold' });
    expect(said(driver)).toBe(
      'Back for rework. Which finding? Number one: Cells twisted. Number two: Tie loose. Number three: Other. Number four: Damage.',
    );
    driver.command({ name: 'finding', number: 1 });
    expect(said(driver)).toBe(
      'Cells twisted. Back to stage two, Count the cells. Say affirm for that stage, or go to stage and another number.',
    );
    driver.command({ name: 'affirm' });
    expect(said(driver)).toBe('Return: Cells twisted. Back to stage two, Count the cells. Is that right?');
    driver.command({ name: 'affirm' });
    expect(said(driver)).toBe(
      'Returned: Cells twisted. Back to stage two, Count the cells. Everything from there on is done again, holds ' +
        'included. Before stage two, Count the cells. Take out the nose tie. Say item removed when it is out.',
    );
    driver.command({ name: 'stow' });
    expect(said(driver)).toBe('Not now: stow. Take out the nose tie. Say item removed when it is out.');
    driver.command({ name: 'standBy' });
    expect(said(driver)).toContain('Standing by at temporary item nose tie.');
  });

  it('asks for what must go in again', () => {
    const driver = at('hold:closing');
    driver.badge('B-ines');
    driver.command({ name: 'returnHold' });
    driver.command({ name: 'finding', number: 2 });
    driver.command({ name: 'goToStage', stage: 4 });
    driver.command({ name: 'affirm' });
    expect(said(driver)).toContain(
      'Before stage four, Measure the line. Put back the nose tie. Say item placed when it is in.',
    );
    expect(driver.view.detail).toMatchObject({ title: 'Put a temporary item back', kind: 'restore', of: 8 });
  });
});

describe('a pack that must not go on', () => {
  it('says first to stop, then why, line by line', () => {
    expect(said(at('blocked', 'REPAIR'))).toBe(
      'Stop. This assembly must not be packed. ' +
        'Canopy: outstanding work: Outstanding: Hole in cell 4. Have it done and recorded first. ' +
        'Keep the assembly apart from what is fit for use. Say stop and tag to end this pack.',
    );
  });

  it('after its check-in speaks of the pack, not of the assembly', () => {
    const { facts } = at('stage:line');
    const driver = new PackDriver({ loft: { ...LOFT, procedures: [{ ...SPRAT, revision: 'D' }] }, facts });
    expect(said(driver)).toBe(
      'Back after a break. Stop. This pack must not go on. Procedure: This pack follows procedure sprat, revision C, ' +
        'which the loft no longer has. Bring that revision back, or stop this pack and tag the assembly. ' +
        'Keep the assembly apart from what is fit for use. ' +
        'Once the files are put right it goes on. Say stand by for somebody to take over, or stop and tag to end this pack.',
    );
  });

  it('is stopped with its place, cause and reasons, and tagged', () => {
    const driver = at('blocked', 'REPAIR');
    driver.command({ name: 'stopAndTag' });
    expect(said(driver)).toMatch(
      /^Stop and tag: for which cause\? Say affirm for failed checks, or choose\. Number one/,
    );
    driver.command({ name: 'affirm' });
    driver.command({ name: 'finding', number: 3 });
    expect(said(driver)).toBe(
      'Stop this pack for good: failed checks. Tag the canopy as not fit for use. Is that right?',
    );
    driver.command({ name: 'affirm' });
    expect(said(driver)).toBe(
      'This pack is stopped. Tag the canopy as not fit for use. Keep it apart from what is fit for use.',
    );
    expect(driver.facts.at(-1)?.body).toEqual({
      kind: 'stopped',
      reason:
        'Stopped by Ada at the failed checks. Cause: failed checks. ' +
        'Canopy: outstanding work: Outstanding: Hole in cell 4. Have it done and recorded first.',
      cause: 'checks',
      component: 'canopy',
    });
  });

  it('in a sound stage is stopped with its place and cause', () => {
    const driver = at('stage:lay');
    stopNow(driver);
    const reason = 'Stopped by Ada at stage 1, Lay out. Cause: damage.';
    expect(driver.facts.at(-1)?.body).toEqual({ kind: 'stopped', reason, cause: 'damage' });
  });

  it('is stopped with a reason that can be stored, however much is wrong', () => {
    const outstanding = Array.from({ length: 40 }, () => `\u{1F9F5}${'frayed '.repeat(30)}`);
    const assemblies = LOFT.assemblies.map((one) => ({
      ...one,
      components: one.components.map((part) => ({ ...part, outstanding })),
    }));
    const driver = new PackDriver({ loft: { ...LOFT, assemblies } });
    reach(driver, 'blocked');
    stopNow(driver);
    const { body } = driver.facts.at(-1)!;
    if (body.kind !== 'stopped') throw new Error(`ends in ${body.kind}`);
    expect(body.reason.length).toBeLessThanOrEqual(REASON_MAX);
    expect(body.reason.length).toBeGreaterThan(REASON_MAX - 3);
    // Half a character would make this throw.
    expect(() => encodeURIComponent(body.reason)).not.toThrow();
  });
});

describe('what remains', () => {
  const answer = (driver: PackDriver): string | undefined => {
    driver.command({ name: 'whatRemains' });
    return driver.view.notice?.text;
  };

  it.each([
    ['identifying', 'Still to scan: bag, container and canopy.'],
    ['toolOut:paddle', 'Stages left: 8. Next hold after stage 3. No temporary item is in. No tool is out.'],
    [
      'stage:stows',
      'Stages left: 4. Next hold after stage 6. Stows left: 6. Temporary items in: nose tie. Tools are out.',
    ],
    ['toolBack:cord', 'Stages left: 0. The final inspection is left. No temporary item is in. Tools are out.'],
    ['sign', 'Stages left: 0. The final inspection is left. No temporary item is in. No tool is out.'],
    ['hold:last', 'Only this inspection is left.'],
  ])('at %s: %s', (place, text) => {
    const driver = at(place);
    expect(answer(driver)).toBe(text);
    expect(driver.view.notice?.tone).toBe('answer');
  });
});

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
