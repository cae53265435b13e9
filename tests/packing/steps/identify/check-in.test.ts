/** Check-in line by line: what is told of a sound assembly, and that each fault fails its own line and no other. */
import { describe, expect, it } from 'vitest';
import type { CheckLine } from '../../../../src/domain/check-line';
import type { Loft } from '../../../../src/domain/loft';
import { reach } from '../../autopilot';
import { DAY, LOFT, SPRAT } from '../../fixture';
import { PackDriver } from '../../pack-driver';

function checksOf(assembly: string, loft: Loft = LOFT): readonly CheckLine[] {
  const driver = new PackDriver({ loft });
  for (const kind of ['BAG', 'CONTAINER', 'CANOPY']) {
    driver.component(`${assembly}-${kind}`);
    driver.command({ name: 'affirm' });
  }
  const { checkIn } = driver.snapshot.context.state;
  if (checkIn === null) throw new Error(`${assembly} was not checked in`);
  return checkIn.checks;
}

const failed = (checks: readonly CheckLine[]) => checks.filter(({ passed }) => !passed);

/** Those of the components themselves are shown in `tests/domain/component/component.test.ts`. */
const ofComponent = /: (record|repack date|life from manufacture|life in service|outstanding work|tags)$/;

describe('the check-in of a sound assembly', () => {
  it('says what was looked at and found', () => {
    const checks = checksOf('P1');
    expect(checks.filter(({ label }) => !ofComponent.test(label))).toEqual([
      { label: 'Procedure', passed: true, detail: 'Sprat main, revision C, in force since 1 January 2026.' },
      { label: 'Assembly model', passed: true, detail: 'The procedure applies to model Sprat.' },
      { label: 'Assembly complete', passed: true, detail: 'Bag, container and canopy belong together.' },
      { label: 'Marks', passed: true, detail: 'No mark that was scanned contradicts the books.' },
      { label: 'Bag: model', passed: true, detail: 'SB is named by the procedure.' },
      { label: 'Container: model', passed: true, detail: 'SC is named by the procedure.' },
      { label: 'Canopy: model', passed: true, detail: 'SK is named by the procedure.' },
      { label: 'Rigger', passed: true, detail: 'Ada is qualified for Sprat.' },
    ]);
    expect(checks.filter(({ label }) => ofComponent.test(label))).toHaveLength(18);
  });

  it('takes a procedure on the first day of its force', () => {
    const loft = { ...LOFT, procedures: [{ ...SPRAT, effectiveOn: DAY }] };
    expect(failed(checksOf('P1', loft))).toEqual([]);
  });
});

describe('the check-in', () => {
  it('does not fail for a scan that was merely refused', () => {
    const driver = new PackDriver({ loft: LOFT });
    driver.component('X-1');
    reach(driver, 'toolOut:paddle');
    expect(failed(driver.snapshot.context.state.checkIn?.checks ?? [])).toEqual([]);
  });

  it('is made up for where a journal ends between agreement and check-in, and nothing is agreed twice', () => {
    const before = new PackDriver({ loft: LOFT });
    reach(before, 'toolOut:paddle');
    const facts = before.facts.filter(({ body }) => body.kind !== 'checkInPassed');
    const driver = new PackDriver({ loft: LOFT, facts });
    expect(driver.facts.slice(facts.length).map(({ body }) => body.kind)).toEqual(['restarted', 'checkInPassed']);
    const stuck = new PackDriver({ loft: LOFT, facts, storage: 'hangs' });
    expect(stuck.task.kind).toBe('identify');
  });
});

describe('the check-in fails on one line alone', () => {
  it.each([
    ['UNWRITTEN', 'Procedure', 'Procedure nowhere is missing or was refused at load. Ask the lead.'],
    ['EARLY', 'Procedure', 'Sprat main, revision C comes into force only on 26 November 2026. Ask the lead.'],
    ['NARROW', 'Assembly model', 'The procedure does not apply to model Sprat. Ask the lead.'],
    ['TWOBAGS', 'Assembly complete', 'Not exactly one bag as recorded. Correct the record.'],
    ['MIXED', 'Bag: model', 'PB is no bag of this procedure. Take the right one, or ask the lead.'],
    ['RULELESS', 'Repack rule', 'The loft has no repack rule none. Ask the lead.'],
    ['PIKE', 'Rigger', 'Ada is not qualified for model Pike. Another rigger must pack.'],
  ])('%s: %s', (assembly, label, detail) => {
    expect(failed(checksOf(assembly))).toEqual([{ label, passed: false, detail }]);
  });

  it('when a part has a model that the procedure names for another part', () => {
    const assemblies = LOFT.assemblies.map((one) =>
      one.id === 'P1' ? { ...one, components: one.components.map((part) => ({ ...part, model: 'SC' })) } : one,
    );
    expect(failed(checksOf('P1', { ...LOFT, assemblies })).map(({ label }) => label)).toEqual([
      'Bag: model',
      'Canopy: model',
    ]);
  });

  it('when a serial was taken for a part of another kind', () => {
    const before = new PackDriver({ loft: LOFT });
    reach(before, 'toolOut:paddle');
    const facts = before.facts
      .filter(({ body }) => body.kind === 'packOpened' || body.kind === 'componentIdentified')
      .map((fact) =>
        fact.body.kind === 'componentIdentified' && fact.body.component === 'bag'
          ? { ...fact, body: { ...fact.body, serial: 'P1-CANOPY' } }
          : fact,
      );
    const driver = new PackDriver({ loft: LOFT, facts });
    expect(failed(driver.snapshot.context.state.checkIn?.checks ?? [])).toEqual([
      { label: 'Assembly complete', passed: false, detail: 'Not exactly one bag as recorded. Correct the record.' },
    ]);
  });

  it('and looks only at the parts that were scanned', () => {
    expect(checksOf('TWOBAGS').filter(({ label }) => label === 'Bag: model')).toHaveLength(1);
  });

  it('when a part that the procedure needs is not in the books any more', () => {
    const canopyless = LOFT.assemblies.map((one) =>
      one.id === 'P1' ? { ...one, components: one.components.filter(({ kind }) => kind !== 'canopy') } : one,
    );
    const before = new PackDriver({ loft: LOFT });
    reach(before, 'toolOut:paddle');
    // The same scans, as facts, in a loft whose books have lost the canopy.
    const scans = before.facts.filter(({ body }) => body.kind === 'packOpened' || body.kind === 'componentIdentified');
    const driver = new PackDriver({ loft: { ...LOFT, assemblies: canopyless }, facts: scans });
    expect(driver.snapshot.context.state.checkIn).toBeNull();
    expect(driver.phase).toBe('identifying');
  });

  it('when nobody whom the loft knows has opened the pack', () => {
    const before = new PackDriver({ loft: LOFT });
    before.component('P1-BAG');
    before.command({ name: 'affirm' });
    before.component('P1-CONTAINER');
    before.command({ name: 'affirm' });
    const driver = new PackDriver({ loft: { ...LOFT, people: [] }, facts: before.facts });
    driver.component('P1-CANOPY');
    driver.command({ name: 'affirm' });
    expect(failed(driver.snapshot.context.state.checkIn?.checks ?? [])).toEqual([
      {
        label: 'Rigger',
        passed: false,
        detail: 'Nobody known has opened this pack. Begin again with a badge.',
      },
    ]);
  });

  it('when a mark contradicted the books, with what was said of it', () => {
    const driver = new PackDriver({ loft: LOFT });
    driver.component('P1-CONTAINER', 'D99999P1-CONTAINER');
    reach(driver, 'blocked');
    expect(failed(driver.snapshot.context.state.checkIn?.checks ?? [])).toEqual([
      {
        label: 'Marks',
        passed: false,
        detail:
          'This mark names container P1-CONTAINER, but carries another item identifier than the books have for it. ' +
          'Set it aside, and have marks and books put right.',
      },
    ]);
  });
});
