/** A pack word for word, as a rigger hears it: whoever changes a sentence sees here where it is said, and what is said around it. */
import { describe, expect, it } from 'vitest';
import { reach, step } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';
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
