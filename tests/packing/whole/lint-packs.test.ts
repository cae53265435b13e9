/** Whatever lint accepts can be packed to the end with any value that it lets through, and the verifier finds it sound. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Loft } from '../../../src/domain/loft';
import type { Procedure } from '../../../src/domain/procedure';
import type { Quantity } from '../../../src/domain/quantity';
import { withDigests } from '../../../src/kiosk/record/in-force';
import { parseProcedure } from '../../../src/loft/parse-procedure';
import { bandOf } from '../../../src/packing/steps/stage/kinds/measure';
import { checkSignature } from '../../../src/record/seal/ed25519';
import { verifyRecord } from '../../../src/record/verify/verify-record';
import { keyPairFrom } from '../../../src/tools/exports/demo-key';
import { remakeText } from '../../../src/tools/exports/remake';
import { ARBITRARY_PROCEDURE } from './arbitrary-procedure';
import { asStored } from '../as-stored';
import { step } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';
import { faultsOf } from './sound-record';

/** Where in its band each measured length lies: 0 at the lowest, 1 at the highest. */
type Measured = readonly number[];

/** Short enough for a few seconds, many enough that each kind of stage and of plan occurs among those that are accepted. */
const TRIED = 240;
const SEED = 20_261_129;
const MOST_STEPS = 1_000;

function loftFor(procedure: Procedure): Loft {
  const assemblies = LOFT.assemblies
    .filter(({ id }) => id === 'P1')
    .map((assembly) => ({ ...assembly, procedure: procedure.id }));
  return withDigests({ ...LOFT, assemblies, procedures: [procedure] });
}

/** A length in the band that a tape shows: in sixteenths of an inch, or hundredths. */
function lengthAt(lowest: Quantity, highest: Quantity, share: number): number {
  const steps = lowest.unit === 'in' ? 16 : 100;
  const least = Math.ceil(lowest.value * steps - 1e-6);
  const most = Math.floor(highest.value * steps + 1e-6);
  return Math.round(least + (most - least) * share) / steps;
}

/** Packs until nothing is left to do. */
function packed(procedure: Procedure, measured: Measured): PackDriver {
  const driver = new PackDriver({ loft: loftFor(procedure) });
  let measures = 0;
  for (let steps = 0; steps < MOST_STEPS; steps += 1) {
    const { task, phase } = driver;
    if (task.kind === 'stage' && task.stage.kind === 'measure' && phase !== 'readingBack') {
      const { lowest, highest } = bandOf(task.procedure, driver.snapshot.context.state, task.stage);
      const share = measured[measures % measured.length] ?? 0;
      measures += 1;
      driver.command({ name: 'measured', value: lengthAt(lowest, highest, share), unit: null });
    } else if (!step(driver)) return driver;
  }
  return driver;
}

const accepted = fc
  .sample(fc.tuple(ARBITRARY_PROCEDURE, fc.array(fc.constantFrom(0, 0.5, 1), { minLength: 3, maxLength: 6 })), {
    numRuns: TRIED,
    seed: SEED,
  })
  .flatMap(([text, measured]) => {
    const parsed = parseProcedure('procedures/made.yaml', text);
    return parsed.ok ? [{ procedure: parsed.value, measured, text }] : [];
  });
const plansOf = ({ stages }: Procedure) => stages.flatMap((stage) => (stage.kind === 'stow' ? [stage.plan] : []));

describe('what lint accepts', () => {
  it('is a good part of what was made, with every kind of stage and plan in it, and not all of it', () => {
    expect(accepted.length).toBeGreaterThan(TRIED / 8);
    expect(accepted.length).toBeLessThan(TRIED);
    const procedures = accepted.map(({ procedure }) => procedure);
    const kinds = new Set(procedures.flatMap(({ stages }) => stages.map(({ kind }) => kind)));
    expect([...kinds].sort()).toEqual(['confirm', 'count', 'measure', 'place', 'remove', 'stow']);
    const plans = procedures.flatMap(plansOf);
    expect(plans.filter(({ least }) => least !== undefined).length).toBeGreaterThan(9);
    expect(plans.filter(({ lineFrom }) => lineFrom !== null).length).toBeGreaterThan(19);
    expect(procedures.filter((one) => plansOf(one).length > 1).length).toBeGreaterThan(4);
    expect(procedures.some(({ noHolds }) => typeof noHolds === 'string')).toBe(true);
  });

  it('can be packed to the end and signed, whatever lengths inside their bands are measured', () => {
    for (const { procedure, measured, text } of accepted) {
      const driver = packed(procedure, measured);
      expect(driver.task.kind, `${driver.view.prompt.show} ${text}`).toBe('recorded');
      const last = driver.facts.filter(({ body }) => body.kind === 'measured' && !body.within);
      expect(last, text).toEqual([]);
      expect(faultsOf(driver.facts, procedure, LOFT.people), text).toEqual([]);
    }
  });

  it('leaves a journal in which the verifier finds nothing', async () => {
    // Each that stows, and some of the others: they are much alike.
    const judged = accepted.filter(({ procedure }, at) => plansOf(procedure).length > 0 || at % 8 === 0);
    const signer = { name: 'x/y', pair: await keyPairFrom('made at random') };
    for (const { procedure, measured, text } of judged) {
      const facts = asStored(packed(procedure, measured).facts, loftFor(procedure));
      const bytes = new TextEncoder().encode(await remakeText(facts, signer));
      const { findings } = await verifyRecord(bytes, { keys: [], checkSignature });
      expect(
        findings.filter(({ what }) => what !== 'key'),
        text,
      ).toEqual([]);
    }
  });
});
