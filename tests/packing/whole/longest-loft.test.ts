/** The longest files that lint lets pass, packed with everything going wrong: every fact of it can be stored. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Assembly } from '../../../src/domain/component/component';
import type { FactBody } from '../../../src/domain/fact';
import type { Loft } from '../../../src/domain/loft';
import type { Procedure, Stage } from '../../../src/domain/procedure';
import { peopleInForce, procedureInForce } from '../../../src/kiosk/record/in-force';
import { parseAssemblies } from '../../../src/loft/parse-assemblies';
import { parsePeople } from '../../../src/loft/parse-people';
import { SENTENCE_MAX, TITLE_MAX } from '../../../src/loft/schema-parts';
import { bounded } from '../../../src/packing/words/bounded';
import { draft } from '../../../src/packing/machine/decision';
import { sealFact } from '../../../src/record/chain/fact-bytes';
import { SAMPLE_BODIES } from '../../fakes/ledger-facts';
import { step } from '../autopilot';
import { LOFT, SPRAT } from '../fixture';
import { PackDriver } from '../pack-driver';

/** Letters that become longer in UTF-8, in JSON or as capitals, or that are two code units. */
const LETTERS = ['x', 'ß', 'ﬃ', '漢', '😀', '"', '\\'] as const;

/** As many of the letter as the length takes, in UTF-16 code units. */
const full = (letter: string, length: number): string => letter.repeat(Math.floor(length / letter.length));

function longStage(stage: Stage, title: string, line: string): Stage {
  const hold =
    stage.hold === null
      ? null
      : {
          ...stage.hold,
          title,
          inspect: Array.from({ length: 12 }, () => line),
          findings: stage.hold.findings.map((one) => ({ ...one, text: line })),
        };
  const common = { title, steps: Array.from({ length: 12 }, () => line), caution: line, hold };
  if (stage.kind === 'measure') return { ...stage, ...common, what: title };
  if (stage.kind === 'stow') return { ...stage, ...common, plan: { ...stage.plan, viewpoint: title } };
  return { ...stage, ...common };
}

function longLoft(letter: string, outstanding: number): Loft {
  const title = full(letter, TITLE_MAX);
  const line = full(letter, SENTENCE_MAX);
  const procedure: Procedure = {
    ...SPRAT,
    title,
    revision: full(letter, 24),
    tools: SPRAT.tools.map((one) => ({ ...one, name: title })),
    temporaryItems: SPRAT.temporaryItems.map((one) => ({ ...one, name: title })),
    stages: SPRAT.stages.map((stage) => longStage(stage, title, line)),
  };
  const [first] = LOFT.assemblies;
  if (first === undefined) throw new Error('the fixture has an assembly');
  const assembly: Assembly = {
    ...first,
    id: 'p1',
    name: title,
    typeAndMake: line,
    owner: { name: title, address: line },
    components: first.components.map((one) => ({
      ...one,
      outstanding: Array.from({ length: outstanding }, () => line),
    })),
  };
  const people = LOFT.people.map((one) => ({ ...one, name: title }));
  const repackRules = LOFT.settings.repackRules.map((one) => ({ ...one, title }));
  const settings = { ...LOFT.settings, place: line, table: title, repackRules };
  return { ...LOFT, settings, people, assemblies: [assembly], procedures: [procedure] };
}

/** What goes wrong between two steps. */
const NUISANCES: readonly ((driver: PackDriver) => void)[] = [
  (driver) => driver.restart(),
  (driver) => driver.badge('B-nobody'),
  (driver) => driver.badge('B-tess'),
  (driver) => driver.component('P9-BAG'),
  (driver) => driver.command({ name: 'standBy' }),
  (driver) => driver.command({ name: 'correction' }),
  (driver) => driver.command({ name: 'callInspector' }),
  (driver) => driver.command({ name: 'measured', value: 399, unit: null }),
];

/** Sends the hold back for the last finding that can be named, with the longest note where it takes one. */
function sendBack(driver: PackDriver, note: string): void {
  const phase = (): string => driver.phase;
  driver.command({ name: 'returnHold' });
  for (let number = 20; number > 0 && phase() === 'choosingFinding'; number -= 1) {
    driver.command({ name: 'finding', number, note });
  }
  for (let number = 20; number > 0 && phase() === 'choosingPoint'; number -= 1) {
    driver.command({ name: 'finding', number, note });
  }
}

describe('in the longest files that are legal', () => {
  it('names of people and assemblies are what lint lets pass', () => {
    for (const letter of LETTERS) {
      const { people, assemblies } = longLoft(letter, 20);
      const shown = people.map(({ certificate, ...one }) => ({ ...one, certificate }));
      const json = (value: unknown): string => JSON.stringify(value);
      expect(parsePeople('people.yaml', json({ people: shown }))).toMatchObject({ ok: true });
      expect(parseAssemblies('assemblies.yaml', json({ assemblies }), null)).toMatchObject({ ok: true });
    }
  });

  it('every fact of a pack in which things go wrong can be stored, to its signature or stop', () => {
    const kinds = new Set<string>();
    const nuisances = fc.array(fc.tuple(fc.nat(60), fc.nat(NUISANCES.length - 1)), { maxLength: 12 });
    const isStopped = fc.constantFrom(0, 0, 20);
    fc.assert(
      fc.property(
        fc.tuple(fc.constantFrom(...LETTERS), isStopped, nuisances, fc.nat(3)),
        ([letter, outstanding, wrong, returns]) => {
          const loft = longLoft(letter, outstanding);
          const driver = new PackDriver({ loft });
          let left = returns;
          for (let steps = 0; steps < 200; steps += 1) {
            for (const [when, which] of wrong) if (when === steps) NUISANCES[which]?.(driver);
            if (driver.phase === 'inspecting' && left > 0) {
              left -= 1;
              sendBack(driver, full('ß', 400));
            }
            if (driver.phase === 'blocked') driver.command({ name: 'stopAndTag' });
            if (!step(driver)) break;
          }
          const bodies: FactBody[] = [peopleInForce(loft)];
          const inForce = procedureInForce(loft, 'p1');
          if (inForce !== null) bodies.push(inForce);
          const drafts = [
            ...driver.facts,
            ...bodies.map((body) => ({ pack: 'p', at: '2026-11-25T09:00:00Z', by: null, body })),
          ];
          for (const one of drafts) {
            kinds.add(one.body.kind);
            const sealed = sealFact(one, 0);
            if (!sealed.ok) throw new Error(`${one.body.kind}: ${sealed.detail}`);
          }
        },
      ),
      { numRuns: 40 },
    );
    for (const kind of ['signed', 'stopped', 'checkInFailed', 'recheckPassed', 'scanRefused', 'holdReturned']) {
      expect([...kinds]).toContain(kind);
    }
  });

  it('a record with more returns than a list holds says how many are left out', () => {
    const { signed } = SAMPLE_BODIES;
    const defects = Array.from({ length: 1_203 }, (_, at) => `Defect ${String(at)}`);
    const body: FactBody = { ...signed, record: { ...signed.record, defects, work: 'w'.repeat(2_400) } };
    const cutBody = bounded(body);
    expect(cutBody.kind === 'signed' ? cutBody.record.defects.length : 0).toBe(1_000);
    expect(cutBody.kind === 'signed' ? cutBody.record.defects.at(-1) : '').toBe(
      'And 204 more, which the journal holds.',
    );
    expect(sealFact(draft({ pack: 'p' }, { by: 'ada', at: '2026-11-25T09:00:00Z', body }), 0)).toMatchObject({
      ok: true,
    });
  });

  it('a procedure as large as a file may be fits into its fact', () => {
    const loft = longLoft('漢', 0);
    const [procedure] = loft.procedures;
    const stage = procedure?.stages[0];
    if (procedure === undefined || stage === undefined) throw new Error('the fixture has a procedure');
    const stages = Array.from({ length: 140 }, (_, at) => ({ ...stage, id: `stage-${String(at)}`, number: at + 1 }));
    const inForce = procedureInForce({ ...loft, procedures: [{ ...procedure, stages }] }, 'p1');
    if (inForce === null) throw new Error('the loft has the assembly');
    expect(new TextEncoder().encode(JSON.stringify(inForce)).length).toBeGreaterThan(1_048_576);
    expect(sealFact(draft({ pack: 'p' }, { by: null, at: '2026-11-25T09:00:00Z', body: inForce }), 0)).toMatchObject({
      ok: true,
    });
  });
});
