/** A fact that the journal cannot take must not lock the pack: it says so, and can be stopped, and the records reached. */
import { describe, expect, it } from 'vitest';
import type { FactKind } from '../../src/domain/fact';
import { demoLoft } from '../e2e/support/demo-loft';
import type { FakeLedger } from '../fakes/ledger';
import { quietRecords } from '../fakes/records-page';
import { startRig, stopPack, toFirstStage } from './rig';

/** From now on the journal rejects every write with a fact of this kind, as the real one does with what it cannot read back. */
function reject(ledger: FakeLedger, kind: FactKind): void {
  const append = ledger.append.bind(ledger);
  ledger.append = (head, drafts) =>
    drafts.some(({ body }) => body.kind === kind)
      ? Promise.reject(new Error('Broken assumption: a draft fits the record.'))
      : append(head, drafts);
}

describe('a fact that the journal cannot take', () => {
  it('is named at the pack, which then can be stopped, and the records can be reached', async () => {
    const rig = await startRig({ records: quietRecords() });
    await toFirstStage(rig);
    reject(rig.ledger, 'stageConfirmed');
    const facts = rig.ledger.facts().length;
    for (let step = 0; step < 4 && rig.pack().notice === null; step += 1) {
      await rig.say({ name: 'stageComplete' });
      if (rig.pack().readBack !== null) await rig.say({ name: 'affirm' });
    }
    expect(rig.pack().notice?.text).toMatch(/cannot be recorded as it is\. The pack can still be stopped and tagged/);
    expect(rig.ledger.facts()).toHaveLength(facts);
    rig.kiosk.acts.records?.show();
    await rig.settle();
    expect(rig.view().screen).toBe('records');
    rig.kiosk.acts.leave();
    await rig.settle();
    await stopPack(rig);
    expect(rig.pack().detail.screen).toBe('stopped');
  });

  it('beside a stop is left out, so that the stop alone is stored', async () => {
    const rig = await startRig({ records: quietRecords() });
    await toFirstStage(rig);
    const loft = demoLoft();
    rig.files({ ...loft, people: loft.people.map((one) => ({ ...one, revoked: one.id === 'tomas-veller' })) });
    reject(rig.ledger, 'peopleInForce');
    await stopPack(rig);
    expect(rig.pack().detail.screen).toBe('stopped');
    expect(rig.ledger.facts().at(-1)?.body.kind).toBe('stopped');
  });
});
