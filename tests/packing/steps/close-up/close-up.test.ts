/** The five lines before a signature: what is missing is named, and nothing that is missing passes. */
import { describe, expect, it } from 'vitest';
import type { FactBody } from '../../../../src/domain/fact';
import type { Loft } from '../../../../src/domain/loft';
import { closeUpChecks } from '../../../../src/packing/steps/close-up/close-up';
import { foldFacts } from '../../../../src/packing/state/fold';
import { reach } from '../../autopilot';
import { LOFT, SPRAT } from '../../fixture';
import { PackDriver } from '../../pack-driver';

function checksAt(place: string, ...more: readonly FactBody[]): Readonly<Record<string, string>> {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place);
  const added = more.map((body, index) => ({
    pack: 'pack-1',
    at: driver.now,
    by: null,
    body,
    seq: driver.facts.length + index,
  }));
  const checks = closeUpChecks(SPRAT, foldFacts(LOFT, [...driver.facts, ...added]));
  return Object.fromEntries(
    checks.map(({ label, passed, detail }) => [label, `${passed ? 'passed' : 'FAILED'}: ${detail}`]),
  );
}

/** The loft as one that seals its packs, where these people have a mark. */
function sealing(marked: readonly string[]): Loft {
  const people = LOFT.people.map((one) => (marked.includes(one.id) ? { ...one, sealMark: 'QH7' } : one));
  return { ...LOFT, people, settings: { ...LOFT.settings, seals: true } };
}

const placed: FactBody = { kind: 'itemPlaced', stage: null, item: 'noseTie' };
const removed: FactBody = { kind: 'itemRemoved', stage: null, item: 'noseTie' };

const COUNTED = 'Tools and temporary items were counted before the container was closed.';
const SOUND = {
  'Counted before closing': `passed: ${COUNTED}`,
  'Tools back': 'passed: Every tool that went out is back.',
  'Temporary items': 'passed: Every item that went in is out.',
  'Inspection holds': 'passed: All 3 are released.',
  'Stages and values': 'passed: Every value is present.',
};

describe('close-up', () => {
  it('of a whole pack passes', () => {
    expect(checksAt('sign')).toEqual(SOUND);
  });

  it('of a pack that has hardly begun names everything that is missing', () => {
    expect(checksAt('stage:lay')).toEqual({
      ...SOUND,
      'Counted before closing': 'FAILED: Not counted: Packing paddle, Pull-up cord and temporary items.',
      'Tools back': 'FAILED: Not back: Packing paddle and Pull-up cord.',
      'Inspection holds': 'FAILED: Not released: Layout, Stowing and Closing.',
      'Stages and values':
        'FAILED: Missing: stage 1, Lay out, stage 2, Count the cells, stage 3, Tie the nose, stage 4, Measure the ' +
        'line, stage 5, Stow the line, stage 6, Measure the rest, stage 7, Untie the nose and stage 8, Close the bag.',
    });
  });

  it('does not take tools that were never counted, out or back, for tools that are back', () => {
    expect(checksAt('toolOut:paddle')['Tools back']).toBe('FAILED: Not back: Packing paddle and Pull-up cord.');
    const back: FactBody = { kind: 'toolReturned', tool: 'cord', count: 1 };
    expect(checksAt('toolOut:paddle', back)['Tools back']).toBe('FAILED: Not back: Packing paddle and Pull-up cord.');
    expect(checksAt('toolBack:cord')['Tools back']).toBe('FAILED: Not back: Pull-up cord.');
  });

  it('names what lies in the pack', () => {
    expect(checksAt('hold:layout')['Temporary items']).toBe('FAILED: Still in: nose tie.');
  });

  it('does not pass an item that went in twice and came out once', () => {
    expect(checksAt('sign', placed, placed, removed)['Temporary items']).toBe('FAILED: Still in: nose tie.');
    expect(checksAt('sign', placed, removed)).toEqual(SOUND);
  });

  it('does not pass an item that came out and never went in', () => {
    expect(checksAt('sign', removed)['Temporary items']).toBe('FAILED: Still in: nose tie.');
  });

  it('names an item that the procedure does not know by its id', () => {
    expect(checksAt('sign', { ...placed, item: 'strange' })['Temporary items']).toBe('FAILED: Still in: strange.');
  });

  it('names the one hold that is not released', () => {
    expect(checksAt('hold:closing')['Inspection holds']).toBe('FAILED: Not released: Closing.');
  });
});

describe('the signature', () => {
  const atSign = (): PackDriver => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'sign');
    return driver;
  };
  const notice = ({ view }: PackDriver): string | undefined => view.notice?.text;

  it('says whose badge is wanted', () => {
    const driver = atSign();
    driver.badge('B-ben');
    expect(notice(driver)).toBe('Ada packs now and must sign. Scan that badge.');
    expect(driver.facts.at(-1)).toMatchObject({ by: 'ben', body: { kind: 'scanRefused', where: 'sign' } });
    driver.badge('B-nobody');
    expect(notice(driver)).toBe('The loft does not know this badge. Ask the lead.');
    expect(driver.facts.at(-1)).toMatchObject({ by: null, body: { kind: 'scanRefused', where: 'sign' } });
    driver.component('P1-BAG');
    expect(notice(driver)).toBe('That is a component label. Scan your badge to sign.');
  });

  it('is not given where the loft has lost the rule by which the next repack is due', () => {
    const { facts } = atSign();
    const loft = { ...LOFT, settings: { ...LOFT.settings, repackRules: [] } };
    const driver = new PackDriver({ loft, facts, at: '2026-11-25T12:00:00.000Z' });
    expect(driver.task.kind).toBe('blocked');
    // After a long break the packer shows first that she is there.
    driver.badge('B-ada');
    expect(driver.phase).toBe('blocked');
    expect(driver.view.prompt.say).toContain('The loft has no repack rule');
    driver.badge('B-ada');
    expect(driver.facts.some(({ body }) => body.kind === 'signed')).toBe(false);
  });

  it('is not given for a packer whom the loft no longer knows', () => {
    const { facts } = atSign();
    const loft = { ...LOFT, people: LOFT.people.filter(({ id }) => id !== 'ada') };
    const driver = new PackDriver({ loft, facts, at: '2026-11-25T12:00:00.000Z' });
    driver.badge('B-ben');
    expect(driver.task.kind).toBe('blocked');
    expect(driver.facts.some(({ body }) => body.kind === 'signed')).toBe(false);
  });

  it('is not given where the loft seals its packs and has no seal mark of the packer on file', () => {
    const driver = new PackDriver({ loft: sealing([]) });
    reach(driver, 'sign');
    driver.badge('B-ada');
    expect(driver.facts.at(-1)).toMatchObject({ by: 'ada', body: { kind: 'scanRefused', reason: 'no-seal-mark' } });
    expect(notice(driver)).toBe('This loft seals its packs, and no seal mark is on file for Ada. Ask the lead.');
  });

  it('is asked for after the seal, whose mark stands on the record', () => {
    const driver = new PackDriver({ loft: sealing(['ada']) });
    reach(driver, 'sign');
    expect(driver.view.prompt.show).toContain('Seal the pack with your mark, QH7, before you sign.');
    driver.badge('B-ada');
    const signed = driver.facts.find(({ body }) => body.kind === 'signed')?.body;
    expect(signed).toMatchObject({ record: { sealMark: 'QH7' } });
  });
});
