/** The machine as the kiosk runs it: an actor, an effect, and answers from a storage that may be wrong. */
import { createActor, initialTransition, transition } from 'xstate';
import { describe, expect, it } from 'vitest';
import type { Fact, FactDraft } from '../../../src/domain/fact';
import { packMachine } from '../../../src/packing/machine/machine';
import { viewOf } from '../../../src/packing/machine/view-of';
import { textDigest } from '../../../src/record/chain/text-digest';
import { reach } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';

const AT = '2026-11-25T09:00:00.000Z';

describe('an actor of the machine', () => {
  it('asks for each write once, and shows it as done only when storage has answered', () => {
    const sent: (readonly FactDraft[])[] = [];
    const machine = packMachine.provide({ actions: { append: (_, { drafts }) => void sent.push(drafts) } });
    const opening = { packer: 'ada', badgeDigest: textDigest('B-ada') };
    const actor = createActor(machine, {
      input: { loft: LOFT, pack: 'p', facts: [], opening, openElsewhere: [], at: AT },
    });
    const view = () => viewOf(actor.getSnapshot());
    actor.start();
    expect(sent.map((drafts) => drafts.map(({ body }) => body.kind))).toEqual([['packOpened']]);
    expect(view()).toMatchObject({ storing: true, legal: [], scan: null, prompt: { say: 'One moment.' } });

    const answer = () => {
      const drafts = sent.at(-1) ?? [];
      const next = actor.getSnapshot().context.facts.length;
      actor.send({ type: 'STORED', facts: drafts.map((draft, index) => ({ ...draft, seq: next + index })) });
    };
    answer();
    expect(view()).toMatchObject({ storing: false, scan: 'component', packer: 'Ada' });

    const sighting = {
      id: 's',
      at: AT,
      reader: 'wedge',
      payloadDigest: 'P1-BAG',
      meaning: { kind: 'component', serial: 'P1-BAG' },
    } as const;
    actor.send({ type: 'SIGHTED', sighting, at: AT });
    expect(view().readBack?.show).toContain('P1-BAG');
    expect(sent).toHaveLength(1);
    actor.send({ type: 'COMMAND', command: { name: 'affirm' }, channel: 'touch', at: AT });
    expect(sent).toHaveLength(2);
    expect(view().detail).toMatchObject({
      screen: 'identify',
      slots: [{ component: 'bag', state: 'readBack' }, {}, {}],
    });
    answer();
    expect(view().detail).toMatchObject({ slots: [{ component: 'bag', state: 'affirmed' }, {}, {}] });
    actor.stop();
  });
});

describe('an answer from storage that is not the answer to what was sent', () => {
  function storing(): PackDriver {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'hold:layout');
    driver.badge('B-ines');
    driver.command({ name: 'releaseHold' });
    driver.storage = 'hangs';
    driver.command({ name: 'affirm' });
    return driver;
  }

  const wrong: readonly (readonly [
    string,
    (sent: readonly FactDraft[], before: readonly Fact[]) => readonly Fact[],
  ])[] = [
    ['nothing', () => []],
    ['an old fact once more', (_, before) => before.slice(-1)],
    [
      'the right fact with a number that is taken',
      (sent, before) => sent.map((draft) => ({ ...draft, seq: before.at(-1)?.seq ?? 0 })),
    ],
    ['the right fact with no number', (sent) => sent.map((draft) => ({ ...draft, seq: Number.NaN }))],
    [
      'the right fact twice',
      (sent, before) => [...sent, ...sent].map((draft, index) => ({ ...draft, seq: before.length + index })),
    ],
    [
      'a fact for another hold',
      (sent, before) =>
        sent.map((draft) => ({
          ...draft,
          seq: before.length,
          body: { ...draft.body, hold: 'closing' } as Fact['body'],
        })),
    ],
    [
      'a fact for another hold with a name as long',
      (sent, before) =>
        sent.map((draft) => ({
          ...draft,
          seq: before.length,
          body: { ...draft.body, hold: 'layouT' } as Fact['body'],
        })),
    ],
    [
      'a fact with something added',
      (sent, before) =>
        sent.map((draft) => ({
          ...draft,
          seq: before.length,
          body: { ...draft.body, more: true } as unknown as Fact['body'],
        })),
    ],
    [
      'a fact with something left out',
      (sent, before) =>
        sent.map((draft) => {
          const body = Object.entries(draft.body).filter(([key]) => key !== 'channel');
          return { ...draft, seq: before.length, body: Object.fromEntries(body) as unknown as Fact['body'] };
        }),
    ],
    [
      'a fact with nothing in it',
      (sent, before) => sent.map((draft) => ({ ...draft, seq: before.length, body: null as unknown as Fact['body'] })),
    ],
    ['a fact by nobody', (sent, before) => sent.map((draft) => ({ ...draft, by: null, seq: before.length }))],
    [
      'a fact by what is no name',
      (sent, before) => sent.map((draft) => ({ ...draft, by: {} as unknown as string, seq: before.length })),
    ],
    [
      'a fact of another pack',
      (sent, before) => sent.map((draft) => ({ ...draft, pack: 'other', seq: before.length })),
    ],
  ];

  it.each(wrong)('opens nothing: %s', (_, facts) => {
    const driver = storing();
    const sent = driver.appends.at(-1) ?? [];
    const [next] = transition(packMachine, driver.snapshot, { type: 'STORED', facts: facts(sent, driver.facts) });
    expect(next.context.facts).toEqual(driver.facts);
    expect(next.context.state.releases.size).toBe(0);
    const text = 'Nothing was recorded. The journal answered something else. Put that right, then do it again.';
    expect(viewOf(next)).toMatchObject({
      storing: false,
      notice: { tone: 'warning', text },
      detail: { screen: 'hold' },
    });
  });

  it.each([
    ['a list for a figure', 'stage:cells', (body: Fact['body']): unknown => ({ ...body, count: [] })],
    [
      'a figure for a list',
      'sign',
      (body: Fact['body']): unknown =>
        body.kind === 'signed' ? { ...body, record: { ...body.record, defects: 0 } } : body,
    ],
  ] as const)('does not take %s', (_, place, changed) => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, place);
    if (place === 'stage:cells') driver.command({ name: 'count', count: 7, noun: 'cells' });
    driver.storage = 'hangs';
    if (place === 'stage:cells') driver.command({ name: 'affirm' });
    else driver.badge('B-ada');
    const sent = driver.appends.at(-1) ?? [];
    expect(sent.map(({ body }) => body.kind)).toContain(place === 'sign' ? 'signed' : 'counted');
    const seq = driver.facts.length;
    const facts = sent.map((draft) => ({ ...draft, body: changed(draft.body) as Fact['body'], seq }));
    const [next] = transition(packMachine, driver.snapshot, { type: 'STORED', facts });
    expect(next.context.facts).toEqual(driver.facts);
  });

  it.each([
    ['a check-in that failed', { kind: 'checkInFailed', checks: [] }],
    ['another agreement', { kind: 'assemblyAgreed', assembly: 'P1', procedure: 'sprat', revision: 'D' }],
    ['what the kiosk itself did, by somebody', null],
  ] as const)('takes none of several facts when one is not what was sent: %s', (_, body) => {
    const driver = new PackDriver({ loft: LOFT });
    for (const serial of ['P1-BAG', 'P1-CONTAINER', 'P1-CANOPY']) {
      driver.component(serial);
      if (serial === 'P1-CANOPY') driver.storage = 'hangs';
      driver.command({ name: 'affirm' });
    }
    const sent = driver.appends.at(-1) ?? [];
    expect(sent.map((draft) => draft.body.kind)).toEqual(['componentIdentified', 'assemblyAgreed', 'checkInPassed']);
    const facts = sent.map((draft, index) => {
      const isOther = index === (body?.kind === 'assemblyAgreed' ? 1 : 2);
      const changed = !isOther ? {} : body === null ? { by: {} as unknown as string } : { body };
      return { ...draft, ...changed, seq: driver.facts.length + index };
    });
    const [next] = transition(packMachine, driver.snapshot, { type: 'STORED', facts });
    expect(next.context.facts).toEqual(driver.facts);
    expect(next.context.state.checkIn).toBeNull();
  });

  it('takes the right answer, in whatever order its keys come', () => {
    const driver = storing();
    const sent = driver.appends.at(-1) ?? [];
    const turned = sent.map(({ pack, at, by, body }) => {
      const keys = Object.fromEntries(Object.entries(body).toReversed()) as unknown as Fact['body'];
      return { body: keys, by, at, pack, seq: 1_000 };
    });
    const [next] = transition(packMachine, driver.snapshot, { type: 'STORED', facts: turned });
    expect(next.context.state.releases.has('layout')).toBe(true);
  });

  it('changes nothing when nothing is being stored', () => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'stage:lay');
    const body = { kind: 'stageConfirmed', stage: 'lay', channel: 'voice' } as const;
    const facts = [{ pack: 'pack-1', at: AT, by: 'ada', body, seq: 1_000 }];
    const [next] = transition(packMachine, driver.snapshot, { type: 'STORED', facts });
    expect(next.context).toBe(driver.snapshot.context);
    const [failed] = transition(packMachine, driver.snapshot, { type: 'STORE_FAILED', detail: 'late' });
    expect(failed.context).toBe(driver.snapshot.context);
  });
});

describe('a machine that begins', () => {
  const begin = (facts: readonly Fact[]): readonly FactDraft[] => {
    const opening = { packer: 'ben', badgeDigest: textDigest('B-ben') };
    const input = { loft: LOFT, pack: 'pack-1', facts, opening, openElsewhere: [], at: AT };
    return initialTransition(packMachine, input)[0].context.pending?.drafts ?? [];
  };

  it('with facts takes up what was there, whoever it is told has opened it', () => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'stage:lay');
    expect(begin(driver.facts).map(({ body, pack }) => [body.kind, pack])).toEqual([['restarted', 'pack-1']]);
    expect(begin([]).map(({ body, pack }) => [body.kind, pack])).toEqual([['packOpened', 'pack-1']]);
  });

  it('with a pack that has ended asks for nothing to be stored', () => {
    const driver = new PackDriver({ loft: LOFT });
    reach(driver, 'recorded');
    const { length } = driver.appends;
    driver.restart();
    expect(driver.appends).toHaveLength(length);
    expect(driver.snapshot.context.owed).toEqual([]);
  });

  it('knows who opens the pack before that is stored', () => {
    expect(new PackDriver({ loft: LOFT, storage: 'hangs' }).view).toMatchObject({ storing: true, packer: 'Ada' });
  });
});

describe('a machine that is asked to begin without anybody', () => {
  it('stops at once: that is a defect of ours', () => {
    const input = { loft: LOFT, pack: 'p', facts: [], opening: null, openElsewhere: [], at: AT };
    const [{ status, error }] = initialTransition(packMachine, input);
    expect(status).toBe('error');
    expect(String(error)).toContain('opened by somebody');
  });
});
