/** What held at check-in is asked again: when a pack is taken up, handed over and signed, and when the files change. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody } from '../../../src/domain/fact';
import type { Loft } from '../../../src/domain/loft';
import { handOver, reach } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';

const DAY = 86_400;

const withPerson = (id: string, differing: object): Loft => ({
  ...LOFT,
  people: LOFT.people.map((one) => (one.id === id ? { ...one, ...differing } : one)),
});
const withCanopy = (differing: object): Loft => ({
  ...LOFT,
  assemblies: LOFT.assemblies.map((one) =>
    one.id !== 'P1'
      ? one
      : {
          ...one,
          components: one.components.map((part) => (part.kind === 'canopy' ? { ...part, ...differing } : part)),
        },
  ),
});

function packAt(place: string, assembly = 'P1', loft: Loft = LOFT): PackDriver {
  const driver = new PackDriver({ loft });
  reach(driver, place, { assembly });
  return driver;
}

const rechecks = ({ facts }: PackDriver) =>
  facts.flatMap(({ body }) => (body.kind === 'recheckPassed' || body.kind === 'recheckFailed' ? [body] : []));
const kinds = ({ facts }: PackDriver): readonly FactBody['kind'][] => facts.map(({ body }) => body.kind);

describe('a pack that was checked in on the last good day', () => {
  it('is not signed twenty-five days later', () => {
    const driver = packAt('sign', 'LASTLIFE');
    driver.after(25 * DAY);
    driver.badge('B-ada');
    expect(driver.phase).toBe('blocked');
    expect(kinds(driver)).not.toContain('signed');
    expect(rechecks(driver).at(-1)).toMatchObject({ kind: 'recheckFailed', occasion: 'signed' });
    expect(driver.view.prompt.say).toMatch(/Container: life from manufacture: .*Take it out of service/);
  });

  it.each([
    ['resumed', (driver: PackDriver) => driver.badge('B-ada')],
    ['handedOver', (driver: PackDriver) => handOver(driver, 'ben')],
    ['restarted', (driver: PackDriver) => driver.restart()],
  ])('is stopped the next day when it is %s', (occasion, act) => {
    const driver = packAt('stage:line', 'LASTLIFE');
    driver.command({ name: 'standBy' });
    driver.after(DAY);
    act(driver);
    expect(rechecks(driver).at(-1)).toMatchObject({ kind: 'recheckFailed', occasion });
    if (driver.phase === 'standingBy') driver.badge('B-ada');
    expect(driver.phase).toBe('blocked');
  });

  it('is signed on that day, on checks of the same moment', () => {
    const driver = packAt('sign', 'LASTLIFE');
    driver.badge('B-ada');
    const [again, signed] = driver.facts.slice(-2);
    expect(again).toMatchObject({ by: null, body: { kind: 'recheckPassed', occasion: 'signed' } });
    expect(signed?.body.kind).toBe('signed');
    expect(again?.at).toBe(signed?.at);
  });
});

describe('facts of checks that were made again', () => {
  it('are spared where the same day would say the same again', () => {
    const driver = packAt('stage:line');
    for (let break_ = 0; break_ < 3; break_ += 1) {
      driver.command({ name: 'standBy' });
      driver.command({ name: 'resume' });
      driver.restart();
    }
    expect(rechecks(driver)).toEqual([]);
    driver.after(DAY);
    driver.restart();
    driver.restart();
    expect(rechecks(driver)).toMatchObject([{ kind: 'recheckPassed', occasion: 'restarted' }]);
  });
});

describe('files that change while a pack is open', () => {
  it('with the packer revoked stop it at once, and let it go on once that is put right', () => {
    const driver = packAt('stage:line');
    driver.files(withPerson('ada', { revoked: true }));
    expect(driver.phase).toBe('blocked');
    expect(driver.view.prompt.say).toContain('The qualification of Ada is revoked.');
    expect(driver.view.legal.map(({ name }) => name).sort()).toEqual(
      ['reopenStage', 'sayAgain', 'standBy', 'stopAndTag', 'whatRemains'].sort(),
    );
    driver.command({ name: 'stageComplete' });
    expect(driver.phase).toBe('blocked');
    driver.files(LOFT);
    expect(rechecks(driver).map(({ kind }) => kind)).toEqual(['recheckFailed', 'recheckPassed']);
    expect(driver.phase).toBe('working');
  });

  it('with the packer revoked let another rigger take over', () => {
    const driver = packAt('stage:line');
    driver.files(withPerson('ada', { revoked: true }));
    handOver(driver, 'ben');
    expect(driver.phase).toBe('working');
    expect(driver.snapshot.context.state.packer).toBe('ben');
  });

  it('with an inspector revoked whose release stands stop it, and name the stage to go back to', () => {
    const driver = packAt('stage:line');
    driver.files(withPerson('ines', { revoked: true }));
    expect(driver.phase).toBe('blocked');
    expect(driver.view.prompt.say).toMatch(/Ines is revoked.*no longer counts.*Reopen stage 3/);
  });

  it('with an inspector revoked whose release stands go on once that stage is reopened and another has looked', () => {
    const driver = packAt('stage:line');
    driver.files(withPerson('ines', { revoked: true }));
    expect(driver.view.prompt.say).toContain('Reopen stage 3');
    driver.command({ name: 'reopenStage', stage: 3 });
    driver.command({ name: 'affirm' });
    expect(rechecks(driver).at(-1)).toMatchObject({ kind: 'recheckPassed', occasion: 'reopened' });
    expect(driver.snapshot.context.state.releases.size).toBe(0);
    reach(driver, 'recorded', { inspector: 'iris' });
    expect(kinds(driver).filter((kind) => kind === 'signed')).toHaveLength(1);
  });

  it('with an inspector revoked stop it also once it is signed, until that stage is reopened and all is signed anew', () => {
    const driver = packAt('placingCard');
    driver.files(withPerson('ines', { revoked: true }));
    expect(driver.phase).toBe('blocked');
    driver.command({ name: 'cardPlaced' });
    expect(kinds(driver)).not.toContain('cardPlaced');
    driver.command({ name: 'reopenStage', stage: 3 });
    driver.command({ name: 'affirm' });
    expect(driver.snapshot.context.state.signed).toBeNull();
    reach(driver, 'recorded', { inspector: 'iris' });
    expect(kinds(driver).filter((kind) => kind === 'signed')).toHaveLength(2);
  });

  it('with an inspector revoked who has released nothing change nothing', () => {
    const driver = packAt('stage:line');
    driver.files(withPerson('iris', { revoked: true }));
    expect(driver.phase).toBe('working');
    expect(rechecks(driver)).toEqual([]);
  });

  it('with the inspector revoked who is present end that presence, even behind the words of a release', () => {
    const driver = packAt('inspecting');
    driver.command({ name: 'releaseHold' });
    expect(driver.phase).toBe('readingBack');
    driver.files(withPerson('ines', { revoked: true }));
    expect(driver.phase).toBe('waitingForInspector');
    expect(driver.view.notice?.text).toContain('The qualification of Ines is revoked.');
    driver.command({ name: 'affirm' });
    expect(kinds(driver)).not.toContain('holdReleased');
    driver.badge('B-ines');
    expect(driver.facts.at(-1)?.body).toMatchObject({ kind: 'scanRefused', reason: 'revoked' });
  });

  it('with a defect on a component stop it', () => {
    const driver = packAt('hold:stowing');
    driver.files(withCanopy({ outstanding: ['Hole in cell 2'] }));
    expect(driver.phase).toBe('blocked');
    expect(driver.view.prompt.say).toContain('Hole in cell 2');
  });

  it('in which nobody knows the badge any more turn it away at the next scan', () => {
    const driver = packAt('hold:layout');
    driver.files({ ...LOFT, people: LOFT.people.filter(({ id }) => id !== 'ines') });
    driver.badge('B-ines');
    expect(driver.facts.at(-1)?.body).toMatchObject({ kind: 'scanRefused', reason: 'unknown-badge' });
  });

  it('while what is being read back is not touched by them go on asking', () => {
    const driver = packAt('stage:cells');
    driver.command({ name: 'count', count: 7, noun: 'cells' });
    driver.files(withPerson('iris', { revoked: true }));
    expect(driver.phase).toBe('readingBack');
    driver.command({ name: 'affirm' });
    expect(kinds(driver).at(-1)).toBe('counted');
  });
});

describe('a clock that was set back', () => {
  /** A fact of another pack, made on that day. */
  const otherOn = (at: string): Fact => ({ seq: 3, pack: 'other', at, by: 'ben', body: { kind: 'stoodBy' } });
  const begin = (at: string, known: string): PackDriver =>
    new PackDriver({ loft: LOFT, at, elsewhere: [otherOn(known)] });

  it('does not make good a container that the journal knows to be beyond its life', () => {
    const driver = begin('2026-11-20T09:00:00.000Z', '2026-11-28T09:00:00.000Z');
    reach(driver, 'blocked', { assembly: 'LASTLIFE' });
    expect(driver.view.prompt.say).toContain('Take it out of service');
  });

  it('by a zone whose day is the day before does not either', () => {
    const driver = begin('2026-11-25T20:00:00.000-11:00', '2026-11-26T08:30:00.000+01:00');
    reach(driver, 'blocked', { assembly: 'LASTLIFE' });
    expect(driver.view.prompt.say).toContain('Take it out of service');
  });

  it('does not make good an inspector who has expired', () => {
    const driver = begin('2026-11-20T09:00:00.000Z', '2026-11-25T09:00:00.000Z');
    reach(driver, 'hold:layout');
    driver.badge('B-otto');
    expect(driver.facts.at(-1)?.body).toMatchObject({ kind: 'scanRefused', reason: 'expired' });
  });

  it('does not make good a packer who has expired', () => {
    const driver = new PackDriver({
      loft: LOFT,
      packer: 'eric',
      at: '2026-11-25T09:00:00.000Z',
      elsewhere: [otherOn('2026-11-26T09:00:00.000Z')],
    });
    reach(driver, 'blocked');
    expect(driver.view.prompt.say).toContain('The qualification of Eric ended');
  });

  it('is written into the pack, so that it can be judged by itself, and counts after a restart', () => {
    const driver = begin('2026-11-20T09:00:00.000Z', '2026-11-28T09:00:00.000Z');
    expect(driver.facts[0]?.body).toMatchObject({ kind: 'packOpened', journalDay: '2026-11-28' });
    const alone = new PackDriver({ loft: LOFT, facts: driver.facts, at: '2026-11-20T10:00:00.000Z' });
    reach(alone, 'blocked', { assembly: 'LASTLIFE' });
    expect(alone.view.prompt.say).toContain('Take it out of service');
  });

  it('lets nobody sign ahead of the work', () => {
    const driver = packAt('sign');
    driver.after(-3_600);
    driver.badge('B-ada');
    expect(kinds(driver)).not.toContain('signed');
    expect(driver.facts.at(-1)?.body).toMatchObject({ kind: 'scanRefused', reason: 'stale' });
    driver.restart();
    // Whoever goes on shows first who that is.
    driver.badge('B-ada');
    driver.badge('B-ada');
    expect(driver.facts.at(-1)?.body).toMatchObject({ kind: 'scanRefused', reason: 'clock-behind' });
    driver.after(7_200);
    driver.badge('B-ada');
    expect(kinds(driver)).toContain('signed');
  });

  it('that tells the right time leaves everything as it was', () => {
    const driver = begin('2026-11-25T09:00:00.000Z', '2026-11-25T08:00:00.000Z');
    expect(driver.facts[0]?.body).not.toHaveProperty('journalDay');
    reach(driver, 'recorded', { assembly: 'LASTLIFE' });
    expect(kinds(driver)).toContain('signed');
  });
});
