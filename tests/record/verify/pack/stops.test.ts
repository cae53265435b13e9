/** What was found at a hold and why a pack was stopped, changed after the fact or never so: each is found. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody } from '../../../../src/domain/fact';
import { NOTE_MAX } from '../../../../src/domain/fact';
import { withDigests } from '../../../../src/kiosk/record/in-force';
import { sealFact } from '../../../../src/record/chain/fact-bytes';
import { Journal } from '../../../../src/record/verify/journal/journal';
import { PackCheck } from '../../../../src/record/verify/pack/pack-check';
import { asStored } from '../../../packing/as-stored';
import { reach, stopNow } from '../../../packing/autopilot';
import { LOFT as BARE } from '../../../packing/fixture';
import { PackDriver } from '../../../packing/pack-driver';

type Change = (body: FactBody, fact: Fact) => Partial<Fact> | FactBody;

const LOFT = withDigests(BARE);

/** What the verifier says of these facts, each changed first. */
function foundIn(facts: readonly Fact[], change: Change = (body) => body): string {
  const check = new PackCheck(new Journal());
  const found: string[] = [];
  for (const fact of asStored(facts, LOFT)) {
    const changed = change(fact.body, fact);
    const next = 'kind' in changed ? { ...fact, body: changed } : { ...fact, ...changed };
    check.take(next, (_, detail) => void found.push(detail));
  }
  return found.join(' ');
}

/** A hold that is returned: by the given findings, one after the other, then affirmed to the end. */
function returned(...findings: readonly (readonly [number, string?])[]): readonly Fact[] {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, 'hold:layout');
  driver.badge('B-ines');
  driver.command({ name: 'returnHold' });
  for (const [number, note] of findings) driver.command({ name: 'finding', number, note });
  while (driver.view.legal.some(({ name }) => name === 'affirm')) driver.command({ name: 'affirm' });
  return driver.facts;
}

function stopped(): readonly Fact[] {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, 'stage:cells');
  stopNow(driver);
  return driver.facts;
}

const DAMAGE = returned([4], [3]);
const NOTED = returned([3], [2, 'x'.repeat(500)]);

describe('as the machine made them nothing is found, and all can be stored', () => {
  it.each([
    ['an own finding', returned([1])],
    ['a point that is not met', returned([3], [1])],
    ['other, with a note longer than can be stored', NOTED],
    ['damage to the canopy', DAMAGE],
    ['damage to the whole assembly', returned([4], [4])],
    ['a stop by the packer', stopped()],
  ])('%s', (_, facts) => {
    expect(foundIn(facts)).toBe('');
    for (const fact of facts) expect(sealFact(fact, fact.seq)).toMatchObject({ ok: true });
  });

  it('and the note is cut to its stated length', () => {
    const note = NOTED.flatMap(({ body }) => (body.kind === 'holdReturned' ? [body.note] : []));
    expect(note).toEqual([`X${'x'.repeat(NOTE_MAX - 2)}…`]);
  });
});

describe('a return', () => {
  const with_ = (differing: object): string =>
    foundIn(NOTED, (body) => (body.kind === 'holdReturned' ? { ...body, ...differing } : body));

  it.each([
    ['a finding that the hold does not have', { finding: 'rust', note: undefined }, 'which is no finding of it'],
    ['a point that the hold does not have', { finding: 'point:2', note: undefined }, 'which is no finding of it'],
    ['a note beside the procedure’s own finding', { finding: 'twist' }, 'a finding that takes none'],
  ])('with %s is found', (_, differing, found) => {
    expect(with_(differing)).toContain(found);
  });
});

describe('a stop', () => {
  const afterDamage = (change: Change): string => foundIn(DAMAGE, change);

  it('without a cause is found, and was none in the first edition', () => {
    const causeless: Change = (body) => (body.kind === 'stopped' ? { ...body, cause: undefined } : body);
    expect(foundIn(stopped(), causeless)).toContain('stops the pack without a cause');
    const first: Change = (body, fact) =>
      body.kind === 'packOpened' ? { ...body, edition: undefined } : causeless(body, fact);
    expect(foundIn(stopped(), first)).not.toContain('without a cause');
  });

  it('by somebody who had not found damage is found', () => {
    const byInes: Change = (body) => (body.kind === 'stopped' ? { by: 'ines' } : body);
    expect(foundIn(stopped(), byInes)).toContain('names ines, who could not stop the pack');
    expect(afterDamage((body) => (body.kind === 'stopped' ? { by: 'iris' } : body))).toContain('names iris');
  });

  it('that tags what had not been identified is found', () => {
    const driver = new PackDriver({ loft: LOFT });
    stopNow(driver);
    const tags: Change = (body) => (body.kind === 'stopped' ? { ...body, component: 'bag' } : body);
    expect(foundIn(driver.facts, tags)).toContain('tags the bag, which had not been identified');
  });

  it('that damage called for, and that did not follow, is found', () => {
    const goesOn: Change = (body) => (body.kind === 'stopped' ? { kind: 'inspectorCalled', stage: 'tie' } : body);
    expect(afterDamage(goesOn)).toContain('where the pack had to be stopped');
    const otherwise: Change = (body) => (body.kind === 'stopped' ? { ...body, cause: 'other' } : body);
    expect(afterDamage(otherwise)).toContain('where the pack had to be stopped');
    const later: Change = (body) => (body.kind === 'stopped' ? { at: '2026-11-25T23:00:00.000Z' } : body);
    expect(afterDamage(later)).toContain('where the pack had to be stopped');
  });
});
