/** What is recorded beside the machine's own facts: files in force, and every jump of the clock. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody, FactDraft } from '../../../src/domain/fact';
import type { Loft } from '../../../src/domain/loft';
import { Circumstances, DRIFT_MS, type Before } from '../../../src/kiosk/record/circumstances';
import { sealFact } from '../../../src/record/chain/fact-bytes';
import { textDigest } from '../../../src/record/chain/text-digest';
import { demoLoft } from '../../e2e/support/demo-loft';
import { LOFT } from '../../packing/fixture';
import { createFakeDisk } from '../../fakes/ledger';
import { startRig, toFirstStage } from '../rig';

const START = Date.parse('2026-11-25T09:00:00.000Z');
const at = (seconds: number): string => new Date(START + seconds * 1000).toISOString();
const draft = (body: FactBody, seconds: number): FactDraft => ({ pack: 'p', at: at(seconds), by: null, body });
const OPENED: FactBody = { kind: 'packOpened', packer: 'ada', badgeDigest: textDigest('B-ada'), table: 'Table 1' };
const AGREED: FactBody = { kind: 'assemblyAgreed', assembly: 'P1', procedure: 'sprat', revision: 'C' };

/** A run of the kiosk: its two clocks, and what it has stored. */
class Run {
  readonly facts: Fact[];
  private readonly circumstances: Circumstances;

  constructor(loft: Loft, before: readonly Fact[] = []) {
    this.facts = [...before];
    this.circumstances = new Circumstances(loft, before);
  }

  /** Stores drafts when the wall clock stands at `wall` seconds and the other one at `mono`. */
  store(drafts: readonly FactDraft[], wall: number, mono = wall): readonly string[] {
    const moment = { at: at(wall), ms: mono * 1000 };
    const gathered = this.circumstances.gather(drafts, moment);
    expect(gathered.drafts.filter((_, index) => gathered.own[index])).toEqual(drafts);
    const facts = gathered.drafts.map((one, index) => ({ ...one, seq: this.facts.length + index }));
    this.facts.push(...facts);
    this.circumstances.took(facts, moment);
    return facts.map(({ body }) => body.kind);
  }
}

describe('files in force', () => {
  it('are recorded when a pack is opened and when its assembly is agreed', () => {
    const run = new Run(LOFT);
    expect(run.store([draft(OPENED, 0)], 0)).toEqual(['packOpened', 'peopleInForce']);
    expect(run.store([draft(AGREED, 1), draft({ kind: 'checkInPassed', checks: [] }, 1)], 1)).toEqual([
      'assemblyAgreed',
      'procedureInForce',
      'checkInPassed',
    ]);
  });

  it('hold no name, and of a badge the digest that the people file has', () => {
    const run = new Run(LOFT);
    run.store([draft(OPENED, 0)], 0);
    const text = JSON.stringify(run.facts[1]);
    expect(text).not.toContain('Ada');
    expect(text).toContain(textDigest('B-ada'));
  });

  it('are recorded again after a restart only when they have changed', () => {
    const run = new Run(LOFT);
    run.store([draft(OPENED, 0)], 0);
    run.store([draft(AGREED, 1)], 1);
    const unchanged = new Run(LOFT, run.facts);
    expect(unchanged.store([draft({ kind: 'restarted' }, 60)], 60)).toEqual(['restarted']);
    const people = LOFT.people.map((one) => (one.id === 'ines' ? { ...one, revoked: true } : one));
    const revoked = new Run({ ...LOFT, people }, run.facts);
    expect(revoked.store([draft({ kind: 'restarted' }, 60)], 60)).toEqual(['restarted', 'peopleInForce']);
    const settings = { ...LOFT.settings, verdictSeconds: 5 };
    const hasty = new Run({ ...LOFT, settings }, run.facts);
    expect(hasty.store([draft({ kind: 'restarted' }, 60)], 60)).toEqual(['restarted', 'procedureInForce']);
  });

  it('of the demo loft can be stored, whatever assembly is agreed', () => {
    const loft = demoLoft();
    for (const { id, procedure } of loft.assemblies) {
      const run = new Run(loft);
      run.store([draft(OPENED, 0)], 0);
      run.store([draft({ ...AGREED, assembly: id, procedure }, 1)], 1);
      for (const fact of run.facts) expect(sealFact(fact, fact.seq)).toMatchObject({ ok: true });
    }
  });
});

describe('a jump of the clock', () => {
  const begun = (): Run => {
    const run = new Run(LOFT);
    run.store([draft(OPENED, 0)], 0);
    return run;
  };
  const stoodBy = (seconds: number): FactDraft => draft({ kind: 'stoodBy' }, seconds);

  it.each([
    ['set back by an hour', [stoodBy(-3_540)], -3_540, 60, ['clockJumped', 'stoodBy']],
    ['set forward by an hour, or slept', [stoodBy(3_660)], 3_660, 60, ['clockJumped', 'stoodBy']],
    ['drifting a little', [stoodBy(60 + DRIFT_MS / 1000 - 1)], 60 + DRIFT_MS / 1000 - 1, 60, ['stoodBy']],
    ['set back by a second, in one write', [stoodBy(60), stoodBy(59)], 60, 60, ['stoodBy', 'clockJumped', 'stoodBy']],
    ['that goes on as time does', [stoodBy(60)], 60, 60, ['stoodBy']],
  ])('%s', (...[, drafts, wall, mono, kinds]) => expect(begun().store(drafts, wall, mono)).toEqual(kinds));

  it('while the kiosk was off is found where the clock went back', () => {
    const run = new Run(LOFT, begun().facts);
    expect(run.store([draft({ kind: 'restarted' }, -500)], -500, 3)).toEqual(['clockJumped', 'restarted']);
    expect(run.facts.find(({ body }) => body.kind === 'clockJumped')?.body).toEqual({
      kind: 'clockJumped',
      from: at(0),
      to: at(-500),
    });
  });

  it('is told once', () => {
    const run = begun();
    run.store([stoodBy(-3_540)], -3_540, 60);
    expect(run.store([draft({ kind: 'resumed', packer: 'ada' }, -3_500)], -3_500, 100)).toEqual(['resumed']);
  });
});

describe('time across packs', () => {
  const OLD: FactDraft = { pack: 'q', at: '2026-11-25T10:00:00.000+01:00', by: null, body: OPENED };
  const jumpsOf = (before: Before, first: string, ms = 0) =>
    new Circumstances(LOFT, [], before)
      .gather([{ ...OLD, at: first }], { at: first, ms })
      .drafts.flatMap(({ body }) => (body.kind === 'clockJumped' ? [body] : []));

  it('a new pack that begins before the last fact of the journal says so first', () => {
    const circumstances = new Circumstances(LOFT, [], { lastAt: at(3_600) });
    const { drafts } = circumstances.gather([draft(OPENED, 0)], { at: at(0), ms: 0 });
    expect(drafts.map(({ body }) => body.kind)).toEqual(['clockJumped', 'packOpened', 'peopleInForce']);
    expect(drafts[0]?.body).toEqual({ kind: 'clockJumped', from: at(3_600), to: at(0) });
  });

  it('a clock that was set forward between two packs of one page is told too', () => {
    const known = { at: at(0), ms: 0 };
    expect(jumpsOf({ lastAt: at(0), known }, at(7_200), 60_000)).toEqual([
      { kind: 'clockJumped', from: at(60), to: at(7_200) },
    ]);
    expect(jumpsOf({ lastAt: at(0), known }, at(60), 60_000)).toEqual([]);
  });

  it('a zone that was moved back is told with both offsets', () => {
    const to = '2026-11-24T23:05:00.000-10:00';
    expect(jumpsOf({ lastAt: OLD.at, offsetAt: () => '-10:00' }, to)).toEqual([
      { kind: 'clockJumped', from: OLD.at, to, zoneFrom: '+01:00', zoneTo: '-10:00' },
    ]);
  });

  it('the end of daylight saving is named as what it is', () => {
    const from = '2026-10-25T02:30:00.000+02:00';
    const to = '2026-10-25T02:10:00.000+01:00';
    const offsetAt = (): string => '+02:00';
    expect(jumpsOf({ lastAt: from, offsetAt }, to)).toEqual([
      { kind: 'clockJumped', from, to, zoneFrom: '+02:00', zoneTo: '+01:00', daylightSaving: true },
    ]);
  });
});

describe('the kiosk', () => {
  it('stores them beside its own facts, and comes back to the same step', async () => {
    const disk = createFakeDisk();
    const rig = await startRig({ disk });
    await toFirstStage(rig);
    const kinds = rig.ledger.facts().map(({ body }) => body.kind);
    expect(kinds.slice(0, 2)).toEqual(['packOpened', 'peopleInForce']);
    expect(kinds[kinds.indexOf('assemblyAgreed') + 1]).toBe('procedureInForce');
    const again = await startRig({ disk });
    expect(again.pack().prompt.show).toBe(rig.pack().prompt.show);
    expect(
      again.ledger
        .facts()
        .slice(kinds.length)
        .map(({ body }) => body.kind),
    ).not.toContain('peopleInForce');
  });
});
