/** What is said beside the straight way, word for word: standing by, a return, a pack that must not go on, what remains. */
import { describe, expect, it } from 'vitest';
import { REASON_MAX } from '../../../src/packing/steps/stop/stop-work';
import { reach, stopNow } from '../autopilot';
import { LOFT, SPRAT } from '../fixture';
import { PackDriver } from '../pack-driver';
const at = (place: string, assembly = 'P1'): PackDriver => {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place, { assembly });
  return driver;
};
const said = ({ view }: PackDriver): string => view.prompt.say;

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
