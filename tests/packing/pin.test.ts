/** A PIN beside the badge: when the loft wants one, what a wrong one costs, and that nothing opens without it. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../src/domain/fact';
import type { PinPolicy } from '../../src/domain/pin';
import { makeStoredPin, PIN_ITERATIONS } from '../../src/domain/pin';
import { pinAskedOf } from '../../src/packing/badge/pin-asked';
import { textDigest } from '../../src/record/chain/text-digest';
import { reach, step } from './autopilot';
import { LOFT } from './fixture';
import { PackDriver, type DriverInput } from './pack-driver';

const STORED = makeStoredPin({
  iterations: PIN_ITERATIONS,
  salt: 'AAAAAAAAAAAAAAAAAAAAAA==',
  hash: `${'A'.repeat(43)}=`,
});

function atHold(
  pin: PinPolicy,
  without: readonly string[] = [],
  after: Pick<DriverInput, 'elsewhere' | 'pack' | 'at'> = {},
): PackDriver {
  const people = LOFT.people.map((person) => (without.includes(person.id) ? person : { ...person, pin: STORED }));
  const pack = new PackDriver({ ...after, loft: { ...LOFT, people, settings: { ...LOFT.settings, pin } } });
  reach(pack, 'hold:layout');
  return pack;
}

type Given = 'fits' | 'wrong' | null;

function badge(pack: PackDriver, person: string, pin: Given, ageSeconds = 0): void {
  const meaning = { kind: 'badge', badgeDigest: textDigest(`B-${person}`) } as const;
  pack.scan(pin === null ? meaning : { ...meaning, pin }, `B-${person}`, ageSeconds);
}

const reasons = (pack: PackDriver): readonly string[] =>
  pack.facts.flatMap(({ body }) => (body.kind === 'scanRefused' ? [body.reason] : []));

/** Releases the hold that an inspector stands at, and goes on to the next one. */
function releaseAndGoOn(pack: PackDriver): void {
  pack.command({ name: 'releaseHold' });
  pack.command({ name: 'affirm' });
  while (pack.task.kind !== 'hold' && step(pack));
}

describe('a hold where the loft wants a PIN', () => {
  it.each<[string, PinPolicy, Given, string]>([
    ['opens to the badge alone where no PIN is wanted', 'never', null, 'inspecting'],
    ['does not open to the badge alone', 'eachHold', null, 'waitingForInspector'],
    ['does not open to the badge alone at its first use', 'firstUse', null, 'waitingForInspector'],
    ['does not open with a wrong PIN', 'eachHold', 'wrong', 'waitingForInspector'],
    ['does not open with a wrong PIN where none was wanted', 'never', 'wrong', 'waitingForInspector'],
    ['opens with the PIN', 'eachHold', 'fits', 'inspecting'],
    ['opens with the PIN at first use', 'firstUse', 'fits', 'inspecting'],
  ])('%s', (_name, policy, pin, phase) => {
    const pack = atHold(policy);
    badge(pack, 'ines', pin);
    expect(pack.phase).toBe(phase);
  });

  it('keeps every failed try and every try without a PIN as a fact of that person', () => {
    const pack = atHold('eachHold');
    badge(pack, 'ines', 'wrong');
    badge(pack, 'ines', null);
    expect(reasons(pack)).toEqual(['pin-wrong', 'pin-needed']);
    expect(pack.facts.filter(({ body }) => body.kind === 'scanRefused').map(({ by }) => by)).toEqual(['ines', 'ines']);
    expect(JSON.stringify(pack.facts)).not.toContain(STORED);
  });

  it('tells in the journal that the PIN was given', () => {
    const pack = atHold('eachHold');
    badge(pack, 'ines', 'fits');
    expect(pack.facts.at(-1)?.body).toMatchObject({ kind: 'inspectorPresent', inspector: 'ines', pin: true });
  });

  it('tells nothing of a PIN in the journal where none was given', () => {
    const pack = atHold('never');
    badge(pack, 'ines', null);
    expect(pack.facts.at(-1)?.body).toEqual({
      kind: 'inspectorPresent',
      hold: 'layout',
      inspector: 'ines',
      sighting: pack.snapshot.context.presence?.sighting,
    });
  });

  it('says what is wrong and what to do', () => {
    const pack = atHold('eachHold', ['ines']);
    const said = (person: string, pin: Given): string | undefined => {
      badge(pack, person, pin);
      return pack.view.notice?.text;
    };
    expect(said('ines', null)).toBe('Ines has no PIN, and this loft wants one. Ask the lead.');
    expect(said('iris', null)).toBe('This loft wants a PIN with the badge. Scan the badge again.');
    expect(said('iris', 'wrong')).toBe('The PIN is wrong. Scan the badge again.');
  });

  it('does not open to somebody who has no PIN', () => {
    const pack = atHold('firstUse', ['ines']);
    badge(pack, 'ines', null);
    badge(pack, 'ines', 'fits');
    expect(reasons(pack)).toEqual(['no-pin', 'no-pin']);
  });

  it('a PIN never stands in for what the person may not do', () => {
    const pack = atHold('eachHold');
    for (const person of ['ada', 'rhea', 'otto', 'ivo']) badge(pack, person, 'fits');
    expect(reasons(pack)).toEqual(['is-packer', 'revoked', 'expired', 'not-for-class']);
    expect(pack.phase).toBe('waitingForInspector');
  });

  it('asks once in a session under "firstUse", and anew after a restart or a break', () => {
    const pack = atHold('firstUse');
    badge(pack, 'ines', 'fits');
    releaseAndGoOn(pack);
    badge(pack, 'ines', null);
    expect(pack.phase).toBe('inspecting');
    pack.restart();
    badge(pack, 'ines', null);
    expect(reasons(pack)).toEqual(['pin-needed']);
    badge(pack, 'ines', 'fits');
    pack.command({ name: 'standBy' });
    pack.command({ name: 'resume' });
    badge(pack, 'ines', null);
    expect(reasons(pack)).toEqual(['pin-needed', 'pin-needed']);
  });

  it('asks anew after a break alone', () => {
    const pack = atHold('firstUse');
    badge(pack, 'ines', 'fits');
    pack.command({ name: 'standBy' });
    pack.command({ name: 'resume' });
    expect(reasons(pack)).toEqual([]);
    badge(pack, 'ines', null);
    expect(reasons(pack)).toEqual(['pin-needed']);
    expect(pack.phase).toBe('waitingForInspector');
  });

  it('asks at each hold under "eachHold"', () => {
    const pack = atHold('eachHold');
    badge(pack, 'ines', 'fits');
    releaseAndGoOn(pack);
    badge(pack, 'ines', null);
    expect(reasons(pack)).toEqual(['pin-needed']);
  });

  it('one person known by PIN does not make another known', () => {
    const pack = atHold('firstUse');
    badge(pack, 'ines', 'fits');
    releaseAndGoOn(pack);
    badge(pack, 'iris', null);
    expect(reasons(pack)).toEqual(['pin-needed']);
  });
});

describe('wrong PINs', () => {
  it('cost a wait that grows, also for the right PIN, and a restart shortens nothing', () => {
    const pack = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(pack, 'ines', 'wrong');
    badge(pack, 'ines', 'fits');
    expect(pack.view.notice?.text).toContain('Wait 29 seconds');
    pack.restart();
    badge(pack, 'ines', 'fits');
    expect(reasons(pack).slice(-2)).toEqual(['pin-wait', 'pin-wait']);
    pack.after(30);
    badge(pack, 'ines', 'wrong');
    pack.after(30);
    badge(pack, 'ines', 'fits');
    expect(pack.view.notice?.text).toContain('Wait 29 seconds');
    pack.after(30);
    badge(pack, 'ines', 'fits');
    expect(pack.phase).toBe('inspecting');
  });

  it('in other packs count too: a new pack is no way to try again at once', () => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(first, 'ines', 'wrong');
    // Ten seconds before the wait ends another pack is at its hold.
    const second = atHold('eachHold', [], { elsewhere: first.facts, pack: 'pack-2' });
    second.ms = first.ms + 20_000;
    badge(second, 'ines', 'fits');
    expect(reasons(second)).toEqual(['pin-wait']);
    badge(second, 'iris', 'fits');
    expect(second.phase).toBe('inspecting');
    second.command({ name: 'standBy' });
    second.command({ name: 'resume' });
    second.after(30);
    badge(second, 'ines', 'wrong');
    badge(second, 'ines', 'fits');
    // The fourth in a row, over both packs.
    expect(second.view.notice?.text).toMatch(/Wait 5\d seconds/);
  });

  it('before a right one in another pack are forgotten', () => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 2; tries += 1) badge(first, 'ines', 'wrong');
    badge(first, 'ines', 'fits');
    const second = atHold('eachHold', [], { elsewhere: first.facts, pack: 'pack-2' });
    badge(second, 'ines', 'wrong');
    badge(second, 'ines', 'fits');
    expect(second.phase).toBe('inspecting');
  });

  it.each(['signed', 'tagCleared'] as const)('before a right one that was given for %s are forgotten', (kind) => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(first, 'ines', 'wrong');
    const last = first.facts.at(-1);
    if (last === undefined) throw new Error('wrong PINs are facts');
    const right = { ...last, seq: last.seq + 1, by: 'ines', body: { kind, pin: true } } as unknown as Fact;
    const second = atHold('eachHold', [], { elsewhere: [...first.facts, right], pack: 'pack-2', at: first.now });
    badge(second, 'ines', 'wrong');
    badge(second, 'ines', 'fits');
    expect(second.phase).toBe('inspecting');
  });

  it('cost the whole wait when the clock is set back', () => {
    const pack = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(pack, 'ines', 'wrong');
    pack.after(-3600);
    badge(pack, 'ines', 'fits');
    expect(pack.phase).toBe('waitingForInspector');
    // The scan comes from before the step, so it is not even looked at; where the loft is told of the jump, it waits.
    expect(reasons(pack).at(-1)).toBe('stale');
    const next = atHold('eachHold', [], { elsewhere: pack.facts, pack: 'pack-2', at: '2026-11-25T08:00:00.000Z' });
    badge(next, 'ines', 'fits');
    expect(next.view.notice?.text).toBe('Too many wrong PINs. Wait 30 seconds, then scan the badge again.');
  });

  it('still cost the longest wait when there are more than the table of waits has, over several packs', () => {
    const wrong = (pack: PackDriver, tries: number): void => {
      for (let tried = 0; tried < tries; tried += 1) {
        pack.after(1000);
        badge(pack, 'ines', 'wrong');
      }
    };
    const first = atHold('eachHold');
    wrong(first, 9);
    const second = atHold('eachHold', [], { elsewhere: first.facts, pack: 'pack-2', at: first.now });
    wrong(second, 3);
    second.after(890);
    badge(second, 'ines', 'fits');
    expect(second.view.notice?.text).toBe('Too many wrong PINs. Wait 9 seconds, then scan the badge again.');
    second.after(10);
    badge(second, 'ines', 'fits');
    expect(second.phase).toBe('inspecting');
  });

  it('are forgotten only by a PIN, not by being let in without one', () => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(first, 'ines', 'wrong');
    const seq = (first.facts.at(-1)?.seq ?? 0) + 1;
    const present = { kind: 'inspectorPresent', hold: 'layout', inspector: 'ines', sighting: 'x' } as const;
    const lapsed = { kind: 'verdictLapsed', hold: 'layout', inspector: 'ines' } as const;
    const more = [present, lapsed].map((body, index) => ({
      pack: 'p',
      at: first.now,
      by: null,
      body,
      seq: seq + index,
    }));
    const second = atHold('eachHold', [], { elsewhere: [...first.facts, ...more], pack: 'pack-2' });
    second.ms = first.ms + 10_000;
    badge(second, 'ines', 'fits');
    expect(reasons(second)).toEqual(['pin-wait']);
  });

  it('are counted in the order in which they happened, whichever pack they are of', () => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 2; tries += 1) badge(first, 'ines', 'wrong');
    // Another pack of this kiosk in between, in which the right one was given.
    const between = atHold('eachHold', [], { elsewhere: first.facts, pack: 'pack-2', at: first.now });
    badge(between, 'ines', 'fits');
    const { loft } = first.snapshot.context;
    const again = new PackDriver({ loft, facts: first.facts, elsewhere: between.facts, at: between.now });
    badge(again, 'ines', 'wrong');
    badge(again, 'ines', 'fits');
    expect(again.phase).toBe('inspecting');
  });

  it('are counted for each person, and forgotten after the right one', () => {
    const pack = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(pack, 'ines', 'wrong');
    badge(pack, 'iris', 'fits');
    expect(pack.phase).toBe('inspecting');
    pack.after(60);
    badge(pack, 'ines', 'fits');
    badge(pack, 'ines', 'wrong');
    badge(pack, 'ines', 'fits');
    expect(pack.phase).toBe('inspecting');
  });

  it('ten in a row end it for this pack, whatever comes after', () => {
    const pack = atHold('eachHold');
    for (let tries = 0; tries < 10; tries += 1) {
      pack.after(1000);
      badge(pack, 'ines', 'wrong');
    }
    pack.after(100_000);
    badge(pack, 'ines', 'fits');
    expect(reasons(pack).at(-1)).toBe('pin-locked');
    expect(pack.view.notice?.text).toBe('Too many wrong PINs for Ines. Somebody else must do this. Tell the lead.');
    badge(pack, 'iris', 'fits');
    expect(pack.phase).toBe('inspecting');
  });
});

describe('a signature where the loft wants a PIN', () => {
  it.each<[PinPolicy, Given, string]>([
    ['never', null, 'card'],
    ['firstUse', null, 'sign'],
    ['eachHold', 'wrong', 'sign'],
    ['eachHold', 'fits', 'card'],
  ])('%s, %s: %s', (policy, pin, task) => {
    const pack = atHold(policy);
    while (pack.task.kind !== 'sign') {
      if (pack.phase === 'waitingForInspector') badge(pack, 'ines', 'fits');
      else step(pack);
    }
    badge(pack, 'ada', pin);
    expect(pack.task.kind).toBe(task);
    // The fact says whether a PIN was given.
    const signed = pack.facts.find(({ body }) => body.kind === 'signed')?.body;
    if (task === 'card') expect(signed).toMatchObject({ kind: 'signed' });
    expect(signed !== undefined && 'pin' in signed).toBe(task === 'card' && pin === 'fits');
  });
});

describe('whose PIN is asked for', () => {
  const asked = (pack: PackDriver, person: string, ageSeconds = 0): string | null => {
    const at = new Date(pack.ms + 1000).toISOString();
    const made = new Date(pack.ms + 1000 - ageSeconds * 1000).toISOString();
    const meaning = { kind: 'badge', badgeDigest: textDigest(`B-${person}`) } as const;
    const sighting = { id: 'new', at: made, reader: 'camera', payloadDigest: '', meaning } as const;
    return pinAskedOf(pack.snapshot, sighting, at)?.id ?? null;
  };

  it('only that of somebody whom the PIN would let in', () => {
    const pack = atHold('eachHold');
    expect(['ines', 'ada', 'rhea', 'nobody'].map((person) => asked(pack, person))).toEqual(['ines', null, null, null]);
    expect(asked(pack, 'ines', 3600)).toBeNull();
    expect(asked(atHold('never'), 'ines')).toBeNull();
    expect(asked(atHold('eachHold', ['ines']), 'ines')).toBeNull();
    for (let tries = 0; tries < 3; tries += 1) badge(pack, 'ines', 'wrong');
    expect(asked(pack, 'ines')).toBeNull();
  });

  it('nobody’s while something is being stored, or where no badge is wanted', () => {
    const pack = atHold('eachHold');
    pack.storage = 'hangs';
    pack.command({ name: 'callInspector' });
    expect(asked(pack, 'ines')).toBeNull();
    const working = new PackDriver({ loft: pack.snapshot.context.loft });
    reach(working, 'stage:lay');
    expect(asked(working, 'ines')).toBeNull();
  });

  it('that of the next inspector, when the time of the one before has run out', () => {
    const pack = atHold('eachHold');
    badge(pack, 'ines', 'fits');
    pack.after(500);
    expect(asked(pack, 'iris')).toBe('iris');
  });

  it('asking changes nothing', () => {
    const pack = atHold('eachHold');
    const before = pack.snapshot;
    asked(pack, 'ines');
    expect(pack.snapshot).toBe(before);
    expect(reasons(pack)).toEqual([]);
  });
});
