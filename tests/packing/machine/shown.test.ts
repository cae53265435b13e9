/** What a screen draws of the present task, and what a record tells: a wrong word there misleads. */
import { describe, expect, it } from 'vitest';
import { words } from '../../../src/packing/words/words';
import { reach, sendBack } from '../autopilot';
import { LOFT, SPRAT } from '../fixture';
import { PackDriver } from '../pack-driver';

const at = (place: string): PackDriver => {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place);
  return driver;
};

describe('a stage on the screen', () => {
  it.each([
    ['stage:lay', { kind: 'confirm', item: null, count: null, caution: 'Keep off the lines', itemsIn: [] }],
    [
      'stage:cells',
      { kind: 'count', item: null, count: { noun: 'cells', expected: null, counted: null }, caution: null },
    ],
    ['stage:tie', { kind: 'place', item: { name: 'nose tie', direction: 'in' }, count: null, itemsIn: [] }],
    ['stage:line', { kind: 'measure', item: null, count: null, itemsIn: ['nose tie'] }],
    ['stage:untie', { kind: 'remove', item: { name: 'nose tie', direction: 'out' }, count: null }],
  ])('at %s names what goes in or out, and what is counted', (place, expected) => {
    expect(at(place).view.detail).toMatchObject({ screen: 'stage', of: 8, ...expected });
  });

  it('for an item that must come out before work goes back says so, and asks for nothing else', () => {
    const driver = at('inspecting');
    sendBack(driver, 2);
    reach(driver, 'restore:out:noseTie');
    expect(driver.view.detail).toMatchObject({
      screen: 'stage',
      kind: 'restore',
      title: 'Take a temporary item out',
      steps: [],
      item: { name: 'nose tie', direction: 'out' },
      itemsIn: ['nose tie'],
    });
  });

  it('names the item that is meant, not the first one', () => {
    const temporaryItems = [{ id: 'peg', name: 'peg' }, ...SPRAT.temporaryItems];
    const driver = new PackDriver({ loft: { ...LOFT, procedures: [{ ...SPRAT, temporaryItems }] } });
    reach(driver, 'stage:tie');
    expect(driver.view.prompt.say).toContain('Put in the nose tie.');
    expect(driver.view.detail).toMatchObject({ item: { name: 'nose tie', direction: 'in' } });
    reach(driver, 'hold:layout');
    driver.command({ name: 'correction' });
    expect(driver.view.readBack?.show).toBe('Correction: take back that nose tie went in. Is that right?');
  });

  it.each(['identify', 'stage:lay', 'hold:layout', 'sign'])('is not the end of the pack: %s', (place) => {
    expect(at(place).view.ended).toBe(false);
  });

  it('tells from the first agreement on what is being packed, and nothing before', () => {
    expect(new PackDriver({ loft: LOFT }).view.assembly).toBeNull();
    expect(at('stage:lay').view.assembly).toBe(LOFT.assemblies.find(({ model }) => model === 'Sprat')?.name);
  });
});

describe('the close-up on the screen', () => {
  it('has a line for everything but the tools, which have a table of their own', () => {
    const { detail } = at('toolBack:paddle').view;
    if (detail.screen !== 'closeUp') throw new Error(`stands at ${detail.screen}`);
    expect(detail.checks.map(({ label }) => label)).not.toContain('Tools back');
    expect(detail.checks.length).toBeGreaterThan(1);
    expect(detail.tools).toEqual([
      { name: 'Packing paddle', issued: null, returned: null },
      { name: 'Pull-up cord', issued: null, returned: null },
    ]);
  });
});

describe('a defect', () => {
  it('names the finding that was chosen, not the first one, and the direction that was measured', () => {
    const driver = at('stage:rest');
    driver.command({ name: 'measured', value: 23, unit: 'in' });
    driver.command({ name: 'affirm' });
    sendBack(driver, 2);
    reach(driver, 'recorded');
    const signed = driver.facts.find(({ body }) => body.kind === 'signed')?.body;
    if (signed?.kind !== 'signed') throw new Error('the pack is not signed');
    expect(signed.record.defects.join('\n')).toContain('23 in measured, 19 in expected, 4 in too long.');
    expect(signed.record.defects[0]).toContain(': Line crossed, found by ');
    expect(signed.record.notice).toMatch(/come first; the kiosk assists and does not certify\.$/);
  });
});

describe('words', () => {
  it('stand alone where nothing is put between them', () => {
    expect(words`As it is.`).toMatchObject({ say: 'As it is.', show: 'As it is.' });
  });
});
