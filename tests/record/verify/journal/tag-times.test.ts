/** A tag that was taken off at a time that cannot be: by a clock that was set back, or by a text editor. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody } from '../../../../src/domain/fact';
import type { PersonInForce } from '../../../../src/domain/person';
import { verdictOf } from '../remade-story';

const INSPECTOR = 'tomas-veller';
const BEFORE = '2026-11-20T09:00:00.000Z';
const AFTER = '2026-11-26T09:00:00.000Z';

interface Told {
  readonly at: string;
  readonly jump?: boolean;
  readonly differing?: Partial<PersonInForce>;
}

/** The story, and behind it the tag of its first stopped pack taken off. */
function cleared(facts: readonly Fact[], { at, jump = false, differing = {} }: Told): readonly Fact[] {
  const stopped = facts.find(({ body }) => body.kind === 'stopped');
  const tagged = stopped?.body.kind === 'stopped' ? stopped.body.component : null;
  const part = facts.find(
    ({ pack, body }) => pack === stopped?.pack && body.kind === 'componentIdentified' && body.component === tagged,
  )?.body;
  const known = facts.findLast(({ body }) => body.kind === 'peopleInForce')?.body;
  const last = facts.at(-1);
  if (stopped === undefined || part?.kind !== 'componentIdentified') throw new Error('the story has a stop');
  if (known?.kind !== 'peopleInForce' || last === undefined) throw new Error('the story has people');
  const people = known.people.map((one) => (one.id === INSPECTOR ? { ...one, ...differing } : one));
  const { component, serial } = part;
  const off: FactBody = {
    kind: 'tagCleared',
    tag: stopped.seq,
    component,
    serial,
    inspector: INSPECTOR,
    sighting: 'scan-tag',
    finding: 'Repaired',
    channel: 'voice',
  };
  const bodies: readonly FactBody[] = [
    ...(jump ? [{ kind: 'clockJumped' as const, from: last.at, to: at }] : []),
    { kind: 'peopleInForce', people },
    off,
  ];
  const more = bodies.map((body, index): Fact => ({
    pack: 'loft',
    at,
    by: body.kind === 'tagCleared' ? INSPECTOR : null,
    seq: facts.length + index,
    body,
  }));
  return [...facts, ...more];
}

const findingsOf = async (told: Told): Promise<readonly string[]> => {
  const { findings } = await verdictOf((facts) => cleared(facts, told));
  return findings.map(({ what, detail }) => `${what}: ${detail}`);
};

describe('a tag taken off', () => {
  it('after everything ahead of it is sound', async () => {
    expect(await findingsOf({ at: AFTER })).toEqual([]);
  });

  it('before what is ahead of it is found, where no jump of the clock is on record', async () => {
    expect(await findingsOf({ at: BEFORE })).toEqual([
      expect.stringMatching(/^time: Fact \d+ is dated before the one ahead of it/),
    ]);
  });

  it('after a jump that is on record is sound, and the jump is told', async () => {
    const verdict = await verdictOf((facts) => cleared(facts, { at: BEFORE, jump: true }));
    expect(verdict.findings).toEqual([]);
    expect(verdict.jumps.at(-1)).toMatchObject({ to: BEFORE });
  });

  it('by an inspector whose time had ended by a day that the journal knows is found, jump or none', async () => {
    const differing = { validTo: '2026-11-22' };
    for (const told of [{ at: BEFORE, jump: true }, { at: AFTER }]) {
      expect(await findingsOf({ ...told, differing })).toContainEqual(expect.stringMatching(/^who: .*is expired/));
    }
  });

  it('on the own stream counts for the packs behind it too', async () => {
    const findings = await verdictOf((facts) => {
      const all = cleared(facts, { at: AFTER });
      const last = all.at(-1);
      const opened = facts.find(({ body }) => body.kind === 'packOpened');
      if (last === undefined || opened === undefined) throw new Error('the story has packs');
      return [...all, { ...opened, pack: 'pack-0009', at: BEFORE, seq: all.length }];
    });
    expect(findings.findings.filter(({ what }) => what === 'time').map(({ detail }) => detail)).toEqual([
      expect.stringContaining('is dated before one of another pack ahead of it'),
    ]);
  });
});
