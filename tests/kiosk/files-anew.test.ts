/** The loft's files are read anew while a pack is open: a revocation reaches it at once, broken files replace nothing. */
import { describe, expect, it, vi } from 'vitest';
import type { Loft } from '../../src/domain/loft';
import { demoLoft } from '../e2e/support/demo-loft';
import { startRig, toFirstStage, toHold, workOn } from './rig';

const revoked = (id: string): Loft => {
  const loft = demoLoft();
  return { ...loft, people: loft.people.map((one) => (one.id === id ? { ...one, revoked: true } : one)) };
};

describe('a people file that changes', () => {
  it('while a pack is open counts for the next badge, and is recorded ahead of what it decides', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    await toHold(rig);
    rig.files(revoked('tomas-veller'));
    await rig.badge('tomas-veller');
    const bodies = rig.ledger.facts().map(({ body }) => body);
    expect(bodies.at(-2)?.kind).toBe('peopleInForce');
    expect(bodies.at(-1)).toMatchObject({ kind: 'scanRefused', reason: 'revoked' });
  });

  it('at the start screen counts for the badge that would open a pack', async () => {
    const rig = await startRig();
    rig.files(revoked('hazel-orrin'));
    await rig.badge('hazel-orrin');
    expect(rig.view().screen).toBe('start');
    expect(rig.ledger.facts()).toEqual([]);
  });

  it('is recorded once', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    rig.files(revoked('tomas-veller'));
    await rig.badge('hazel-orrin');
    await workOn(rig);
    await workOn(rig);
    const files = rig.ledger.facts().filter(({ body }) => body.kind === 'peopleInForce');
    expect(files).toHaveLength(2);
  });

  it('stops a pack at which nobody scans anything within seconds', async () => {
    vi.useFakeTimers({ toFake: ['setInterval'] });
    try {
      const rig = await startRig();
      await toFirstStage(rig);
      rig.files(revoked('hazel-orrin'));
      vi.advanceTimersByTime(5_000);
      await rig.settle();
      expect(rig.pack().detail.screen).toBe('blocked');
      rig.files(demoLoft());
      vi.advanceTimersByTime(5_000);
      await rig.settle();
      expect(rig.pack().detail.screen).toBe('stage');
    } finally {
      vi.useRealTimers();
    }
  });
});

describe('files that are broken', () => {
  it('replace nothing, and the screen says so until they are put right', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    await toHold(rig);
    rig.files('people.yaml, line 4: This is no date.');
    await rig.badge('tomas-veller');
    expect(rig.ledger.facts().at(-1)?.body).toMatchObject({ kind: 'inspectorPresent' });
    expect(rig.view()).toMatchObject({
      screen: 'pack',
      filesTrouble: expect.stringMatching(/people.yaml, line 4.*the files as they were before count/) as string,
    });
    rig.files(demoLoft());
    await rig.badge('tomas-veller');
    expect(rig.view()).toMatchObject({ screen: 'pack', filesTrouble: null });
  });
});
