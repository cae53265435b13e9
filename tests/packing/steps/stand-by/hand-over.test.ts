/** Handing a pack over, and going on after a break: who must show, what is refused, and what the journal says. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody } from '../../../../src/domain/fact';
import type { Loft } from '../../../../src/domain/loft';
import { foldFacts } from '../../../../src/packing/state/fold';
import { textDigest } from '../../../../src/record/chain/text-digest';
import { reach } from '../../autopilot';
import { LOFT, PEOPLE } from '../../fixture';
import { PackDriver } from '../../pack-driver';

const ada = PEOPLE.find(({ id }) => id === 'ada');
if (ada === undefined) throw new Error('the loft has a rigger');
const lena = { ...ada, id: 'lena', name: 'Lena', roles: ['lead'] as const, badges: [textDigest('B-lena')] };
const LED: Loft = {
  ...LOFT,
  people: [...PEOPLE, lena, { ...lena, id: 'lev', revoked: true, badges: [textDigest('B-lev')] }],
};

function standingBy(place = 'stage:line'): PackDriver {
  const driver = new PackDriver({ loft: LED });
  reach(driver, place);
  driver.command({ name: 'standBy' });
  return driver;
}

const bodies = <K extends FactBody['kind']>({ facts }: PackDriver, kind: K) =>
  facts.flatMap(({ body }) => (body.kind === kind ? [body as Extract<FactBody, { kind: K }>] : []));
const refusals = (driver: PackDriver): readonly string[] => bodies(driver, 'scanRefused').map(({ reason }) => reason);

/** To the step at which the other badge is awaited. */
function leaving(reason = 1): PackDriver {
  const driver = standingBy();
  driver.badge('B-ben');
  driver.command({ name: 'finding', number: reason });
  return driver;
}

describe('a hand-over', () => {
  it('is nothing without the badge of whoever leaves: one badge hands over no pack', () => {
    const driver = standingBy();
    driver.badge('B-ben');
    driver.command({ name: 'resume' });
    expect(bodies(driver, 'handedOver')).toEqual([]);
    expect(bodies(driver, 'resumed')).toMatchObject([{ packer: 'ada' }]);
  });

  it('keeps both scans, the reason and the hold that was looked back at', () => {
    const driver = leaving(3);
    driver.badge('B-ada');
    expect(driver.view.prompt.say).toContain('hold Layout after stage three stands as it was released');
    driver.command({ name: 'affirm' });
    const [body] = bodies(driver, 'handedOver');
    expect(body).toMatchObject({ from: 'ada', to: 'ben', reason: 'unwell', lookedBack: 'layout' });
    expect(body?.fromSighting).not.toBe(body?.sighting);
    expect(body).not.toHaveProperty('lead');
    const { spent } = foldFacts(LED, driver.facts);
    expect([body?.sighting, body?.fromSighting].every((id) => spent.has(id ?? ''))).toBe(true);
  });

  it('by a lead for a packer who cannot says so', () => {
    const driver = leaving();
    driver.badge('B-lena');
    driver.command({ name: 'affirm' });
    expect(bodies(driver, 'handedOver')).toMatchObject([{ from: 'ada', to: 'ben', lead: 'lena' }]);
  });

  it.each([
    ['ben', 'takes-over'],
    ['ines', 'not-a-lead'],
    ['lev', 'revoked'],
    ['nobody', 'unknown-badge'],
  ])('is not let go by %s, and stays where it was', (badge, reason) => {
    const driver = leaving();
    driver.badge(`B-${badge}`);
    expect(refusals(driver)).toEqual([reason]);
    expect(bodies(driver, 'scanRefused')).toMatchObject([{ where: 'handover' }]);
    expect(driver.phase).toBe('handOverLeaving');
    driver.badge('B-ada');
    driver.command({ name: 'affirm' });
    expect(bodies(driver, 'handedOver')).toHaveLength(1);
  });

  it('takes no scan twice, and none from before it began', () => {
    const driver = leaving();
    driver.badge('B-ada', 600);
    driver.badge('B-ada');
    driver.command({ name: 'negative' });
    driver.rescan();
    expect(refusals(driver)).toEqual(['stale', 'replayed']);
    expect(bodies(driver, 'handedOver')).toEqual([]);
  });

  it('goes back step by step with "negative"', () => {
    const driver = leaving();
    driver.badge('B-ada');
    const steps = [0, 1, 2].map(() => {
      driver.command({ name: 'negative' });
      return driver.phase;
    });
    expect(steps).toEqual(['handOverLeaving', 'handOverReason', 'standingBy']);
    expect(bodies(driver, 'handedOver')).toEqual([]);
  });

  it('does not wait for somebody who scanned long ago', () => {
    const driver = leaving();
    driver.badge('B-ada');
    driver.after(11 * 60);
    driver.command({ name: 'affirm' });
    expect(bodies(driver, 'handedOver')).toEqual([]);
    expect(driver.view.notice?.text).toContain('more than 10 minutes ago');
  });

  it('to somebody who was revoked meanwhile is none', () => {
    const driver = leaving();
    driver.badge('B-ada');
    driver.files({ ...LED, people: LED.people.map((one) => (one.id === 'ben' ? { ...one, revoked: true } : one)) });
    driver.command({ name: 'affirm' });
    expect(bodies(driver, 'handedOver')).toEqual([]);
  });

  it('for a reason that is none says how many there are', () => {
    const driver = standingBy();
    driver.badge('B-ben');
    driver.command({ name: 'finding', number: 6 });
    expect(driver.view.notice?.text).toBe('There are 5 reasons here. Say finding and its number.');
  });
});

describe('going on', () => {
  it('within the minutes of the loft needs no badge', () => {
    const driver = standingBy();
    driver.after(14 * 60);
    driver.command({ name: 'resume' });
    expect(bodies(driver, 'resumed')).toEqual([{ kind: 'resumed', packer: 'ada' }]);
  });

  it('after more minutes wants the badge of the packer, and says so', () => {
    const driver = standingBy();
    driver.after(16 * 60);
    driver.command({ name: 'resume' });
    expect(bodies(driver, 'resumed')).toEqual([]);
    expect(driver.view.prompt.say).toContain('Scan your badge to go on.');
    expect(driver.view.legal.map(({ name }) => name)).not.toContain('resume');
    driver.badge('B-ada');
    expect(bodies(driver, 'resumed')).toMatchObject([{ packer: 'ada', sighting: expect.any(String) as string }]);
    expect(driver.phase).toBe('working');
  });

  it('is announced as soon as the break is long', () => {
    const driver = standingBy();
    driver.tick();
    expect(driver.view.legal.map(({ name }) => name)).toContain('resume');
    driver.after(16 * 60);
    driver.tick();
    expect(driver.view.prompt.say).toContain('Scan your badge to go on.');
  });

  it('is judged by what the loft says', () => {
    const driver = new PackDriver({ loft: { ...LED, settings: { ...LED.settings, resumeBadgeMinutes: 60 } } });
    reach(driver, 'stage:line');
    driver.command({ name: 'standBy' });
    driver.after(59 * 60);
    driver.command({ name: 'resume' });
    expect(driver.phase).toBe('working');
  });

  it('is not made shorter by a clock that was set back, nor by scans that were turned away', () => {
    const back = standingBy();
    back.after(-60);
    back.command({ name: 'resume' });
    expect(bodies(back, 'resumed')).toEqual([]);
    const tried = standingBy();
    tried.after(10 * 60);
    tried.badge('B-nobody');
    tried.after(10 * 60);
    tried.command({ name: 'resume' });
    expect(bodies(tried, 'resumed')).toEqual([]);
  });

  it('after a restart behind a long break stands by for the badge, also where that cannot be stored at once', () => {
    const before = new PackDriver({ loft: LED });
    reach(before, 'stage:line');
    const come = (minutes: number, storage: 'works' | { fails: string } = 'works'): PackDriver => {
      const last = before.facts.at(-1) as Fact;
      const at = new Date(Date.parse(last.at) + minutes * 60_000).toISOString();
      return new PackDriver({ loft: LED, facts: before.facts, at, storage });
    };
    expect(come(10).phase).toBe('working');
    for (const driver of [come(16), come(-1), come(16, { fails: 'Full.' })]) {
      expect(driver.phase).toBe('standingBy');
      driver.storage = 'works';
      driver.command({ name: 'stageComplete' });
      expect(driver.phase).toBe('standingBy');
      driver.badge('B-ada');
      expect(driver.phase).toBe('working');
      expect(bodies(driver, 'restarted')).toEqual([{ kind: 'restarted', standsBy: true }]);
    }
  });
});
