/** The records page and the proof of a card in the running kiosk: when they come, and when they must not. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../src/domain/fact';
import { NOT_LOOKED_AT, type RecordsPage } from '../../../src/kiosk/record/records';
import type { ProofState } from '../../../src/screens/contract/proof-view';
import type { RecordsView } from '../../../src/screens/contract/records-view';
import { createFakeDisk, createFakeLedger } from '../../fakes/ledger';
import { quietRecords } from '../../fakes/records-page';
import { startRig, toFirstStage, type KioskRig } from '../rig';

const CARD = readFileSync(join(import.meta.dirname, '../../../demo-data/exports/card.txt'), 'utf8').trim();

let runs = 0;

const VIEW: RecordsView = { ...NOT_LOOKED_AT, empty: true };

/** A page that keeps what was asked of it, and proves a record when it is let. */
function fakePage() {
  const asked: string[] = [];
  const trouble: { what: string | null } = { what: null };
  const signed: Fact[] = [];
  let prove: (proof: ProofState) => void = () => undefined;
  const ask = (name: string) => () => Promise.resolve(void asked.push(name));
  const page: RecordsPage = {
    ...quietRecords(),
    current: () => VIEW,
    trouble: () => trouble.what,
    refresh: ask('refresh'),
    exportAll: ask('exportAll'),
    verify: ask('verify'),
    restore: ask('restore'),
    restoreOffered: ask('restoreOffered'),
    sighted: ({ meaning }) => void asked.push(`sighted ${meaning.kind}`),
    chooseFolder: ask('chooseFolder'),
    card: (text) => Promise.resolve(void asked.push(`card ${text.slice(0, 4)}`)),
    sealed: (fact) => {
      signed.push(fact);
      return new Promise((done) => (prove = done));
    },
    closed: ask('closed'),
  };
  return { page, asked, trouble, signed, prove: (proof: ProofState) => prove(proof) };
}

async function rigWith(
  fake: ReturnType<typeof fakePage>,
  more: Parameters<typeof startRig>[0] = {},
): Promise<KioskRig> {
  return startRig({ records: fake.page, ...more });
}

describe('the records page', () => {
  it('opens from the start without a badge, asks what is asked, and goes back', async () => {
    const fake = fakePage();
    const rig = await rigWith(fake);
    const acts = rig.kiosk.acts.records;
    acts?.show();
    await rig.settle();
    expect(rig.view()).toMatchObject({ screen: 'records' });
    expect(rig.ear.open()).toBeNull();
    acts?.exportAll();
    acts?.chooseFolder();
    expect(fake.asked).toEqual(['refresh', 'refresh', 'exportAll', 'chooseFolder']);
    rig.kiosk.acts.leave();
    expect(rig.view().screen).toBe('start');
  });

  it('opens over an open pack, which stands where it was when one comes back', async () => {
    const fake = fakePage();
    const rig = await rigWith(fake);
    await toFirstStage(rig);
    const [before, facts] = [rig.pack().prompt.show, rig.ledger.facts().length];
    rig.kiosk.acts.records?.show();
    await rig.settle();
    expect(rig.view().screen).toBe('records');
    expect(rig.ear.open()).toBeNull();
    // Nothing that is said, pressed or scanned there reaches the pack.
    await rig.badge('hazel-orrin');
    await rig.touch({ name: 'stageComplete' });
    expect(rig.ledger.facts()).toHaveLength(facts);
    rig.kiosk.acts.leave();
    await rig.settle();
    expect(rig.pack().prompt.show).toBe(before);
    await rig.say({ name: 'stageComplete' });
    expect(rig.ledger.facts().length).toBeGreaterThan(facts);
  });

  it('does not open by a printed card that lies in view while a pack is open', async () => {
    const rig = await rigWith(fakePage());
    await toFirstStage(rig);
    await rig.scan(CARD);
    expect(rig.view().screen).toBe('pack');
  });

  it('a badge on it opens no pack', async () => {
    const rig = await rigWith(fakePage());
    rig.kiosk.acts.records?.show();
    await rig.settle();
    await rig.badge('hazel-orrin');
    expect(rig.view().screen).toBe('records');
    expect(rig.ledger.facts()).toEqual([]);
  });
});

describe('trouble with the records', () => {
  it('stands on the start screen, and is said when one comes back to it', async () => {
    const fake = fakePage();
    const rig = await rigWith(fake);
    fake.trouble.what = 'Only 120 MB of storage are left.';
    rig.kiosk.acts.records?.show();
    await rig.settle();
    rig.kiosk.acts.leave();
    await rig.settle();
    expect(rig.view()).toMatchObject({ start: { notice: 'Only 120 MB of storage are left.' } });
    expect(rig.mouth.said.at(-1)).toContain('Only 120 MB of storage are left.');
  });
});

describe('a printed card', () => {
  it('held to the start screen is checked on the records page', async () => {
    const fake = fakePage();
    const rig = await rigWith(fake);
    await rig.scan(CARD);
    expect(rig.view().screen).toBe('records');
    await rig.scan(CARD);
    expect(fake.asked).toEqual(['refresh', 'refresh', 'card SCP1', 'card SCP1']);
  });

  it('that lies in view during a pack changes nothing and records nothing', async () => {
    const fake = fakePage();
    const rig = await rigWith(fake);
    await toFirstStage(rig);
    const before = { facts: rig.ledger.facts().length, key: rig.pack().prompt.key };
    await rig.scan(CARD);
    expect({ facts: rig.ledger.facts().length, key: rig.pack().prompt.key }).toEqual(before);
    expect(fake.asked).toEqual(['refresh']);
  });
});

describe('the proof of a signed record', () => {
  /** After a long break the packer's badge is wanted before anything else. */
  async function backAfter(rig: KioskRig): Promise<KioskRig> {
    if (rig.pack().detail.screen === 'standingBy') await rig.badge('hazel-orrin');
    if (rig.pack().detail.screen === 'standingBy') await rig.say({ name: 'resume' });
    return rig;
  }

  /** A kiosk that comes back to a pack with nothing left but the signature. */
  async function atSignature(fake: ReturnType<typeof fakePage>, disk = createFakeDisk()): Promise<KioskRig> {
    const { makeDemoExports } = await import('../../../src/tools/commands/exports');
    const { demoLoft } = await import('../../e2e/support/demo-loft');
    const { sound } = await makeDemoExports(demoLoft(), `kiosk-records-${(runs += 1)}`);
    const facts = sound.file.facts.map(({ fact }) => fact).filter(({ pack }) => pack === 'pack-0002');
    const ledger = createFakeLedger(disk);
    const head = await ledger.open();
    if (!head.ok) throw new Error(head.detail);
    const end = facts.findIndex(({ body }) => body.kind === 'signed');
    const drafts = facts.slice(0, end).map(({ pack, at, by, body }) => ({ pack, at, by, body: moved(body, facts[0]) }));
    await ledger.append(head.value, drafts);
    return backAfter(await rigWith(fake, { disk }));
  }

  /** A correction goes on meaning the same fact, though the numbers begin at 0 here. */
  function moved(body: Fact['body'], first: Fact | undefined): Fact['body'] {
    return body.kind === 'corrected' ? { ...body, fact: body.fact - (first?.seq ?? 0) } : body;
  }

  it('is asked for once the signature is stored, and shown when it is there', async () => {
    const fake = fakePage();
    const rig = await atSignature(fake);
    expect(rig.pack().detail.screen).toBe('sign');
    await rig.badge('hazel-orrin');
    expect(rig.pack().detail.screen).toBe('card');
    expect(fake.signed.map(({ body }) => body.kind)).toEqual(['signed']);
    expect(rig.view()).toMatchObject({ proof: { state: 'making' } });
    const proof = { text: 'SCP1', picture: 'data:,', widthMm: 60 };
    fake.prove({ state: 'made', proof });
    await rig.settle();
    expect(rig.view()).toMatchObject({ proof: { state: 'made', proof } });
  });

  it('that comes after the record was left behind is not shown to anybody else', async () => {
    const fake = fakePage();
    const rig = await atSignature(fake);
    await rig.badge('hazel-orrin');
    await rig.say({ name: 'cardPlaced' });
    await rig.badge('tomas-veller');
    await rig.say({ name: 'releaseHold' });
    await rig.say({ name: 'affirm' });
    expect(rig.pack().detail.screen).toBe('record');
    expect(fake.asked).toContain('closed');
    rig.kiosk.acts.leave();
    fake.prove({ state: 'failed', why: 'late' });
    await rig.settle();
    expect(rig.view().screen).toBe('start');
    await rig.badge('hazel-orrin');
    expect(rig.view()).toMatchObject({ screen: 'pack', proof: null });
  });

  it('is asked for again after a break between the signature and the final inspection', async () => {
    const fake = fakePage();
    const disk = createFakeDisk();
    const rig = await atSignature(fake, disk);
    await rig.badge('hazel-orrin');
    const again = fakePage();
    const back = await backAfter(await rigWith(again, { disk }));
    expect(back.pack().detail.screen).toBe('card');
    expect(again.signed.map(({ body }) => body.kind)).toEqual(['signed']);
    const proof = { text: 'SCP1', picture: 'data:,', widthMm: 60 };
    again.prove({ state: 'made', proof });
    await back.settle();
    expect(back.view()).toMatchObject({ proof: { state: 'made', proof } });
  });
});
