/** Files that change while a pack is open: the procedure that was agreed stays the one that it follows. */
import { describe, expect, it } from 'vitest';
import type { Loft } from '../../src/domain/loft';
import type { Procedure } from '../../src/domain/procedure';
import { procedureDigest, withDigests } from '../../src/kiosk/record/in-force';
import { demoLoft } from '../e2e/support/demo-loft';
import { createFakeDisk } from '../fakes/ledger';
import { startRig, toFirstStage, workOn, type KioskRig } from './rig';

const ID = 'wendle-r7-static-line';

function loftWith(change: (procedure: Procedure) => readonly Procedure[]): Loft {
  const loft = demoLoft();
  return { ...loft, procedures: loft.procedures.flatMap((one) => (one.id === ID ? change(one) : [one])) };
}

/** Opens a pack, switches the kiosk off, and starts it on other files. */
async function comeBackTo(loft: Loft): Promise<{ readonly before: KioskRig; readonly after: KioskRig }> {
  const disk = createFakeDisk();
  const before = await startRig({ disk });
  await toFirstStage(before);
  return { before, after: await startRig({ disk, loft }) };
}

const isOther = (procedure: Procedure): Procedure => ({ ...procedure, title: 'Something else' });

describe('an open pack, after a restart', () => {
  it('whose procedure was changed under the same revision is stopped with the reason', async () => {
    const { after } = await comeBackTo(loftWith((one) => [isOther(one)]));
    const { detail, legal, prompt } = after.pack();
    expect(detail.screen).toBe('blocked');
    expect(prompt.say).toContain('was changed and still says revision');
    expect(legal.map(({ name }) => name)).toContain('stopAndTag');
    expect(legal.map(({ name }) => name)).not.toContain('stageComplete');
  });

  it('goes on once the file is back as it was', async () => {
    const { before, after } = await comeBackTo(loftWith((one) => [isOther(one)]));
    expect(after.pack().detail.screen).toBe('blocked');
    const again = await startRig({ disk: before.ledger.disk });
    expect(again.pack().detail).toEqual(before.pack().detail);
  });

  it('of which the files hold a new revision goes on with the one that was agreed', async () => {
    const { before, after } = await comeBackTo(loftWith((one) => [{ ...isOther(one), revision: 'Z', stages: [] }]));
    expect(after.pack().detail).toEqual(before.pack().detail);
    await workOn(after);
    expect(after.pack().progress).toEqual(before.pack().progress && { ...before.pack().progress, done: 1 });
    const held = after.ledger.facts().flatMap(({ body }) => (body.kind === 'procedureInForce' ? [body.procedure] : []));
    expect(new Set(held.map((one) => one?.revision))).not.toContain('Z');
  });

  it('whose procedure is gone from the files goes on with the one that was agreed', async () => {
    const { before, after } = await comeBackTo(loftWith(() => []));
    expect(after.pack().detail).toEqual(before.pack().detail);
  });
});

describe('the digest of a procedure', () => {
  const [procedure] = demoLoft().procedures;
  if (procedure === undefined) throw new Error('the demo loft has procedures');

  it('stands in the fact that agrees it', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    const agreed = rig.ledger.facts().find(({ body }) => body.kind === 'assemblyAgreed')?.body;
    const filed = demoLoft().procedures.find(({ id }) => id === ID);
    expect(agreed).toMatchObject({ procedure: ID, digest: filed === undefined ? '' : procedureDigest(filed) });
  });

  it('depends on every word and not on the order of members, nor on a digest that was put on', () => {
    const reversed = Object.fromEntries(Object.entries(procedure).reverse()) as unknown as Procedure;
    expect(procedureDigest(reversed)).toBe(procedureDigest(procedure));
    expect(procedureDigest(isOther(procedure))).not.toBe(procedureDigest(procedure));
    const [put] = withDigests({ ...demoLoft(), procedures: [procedure] }).procedures;
    expect(put?.digest).toBe(procedureDigest(procedure));
    expect(put === undefined ? '' : procedureDigest(put)).toBe(procedureDigest(procedure));
  });
});
