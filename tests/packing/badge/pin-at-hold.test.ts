/** A PIN beside the badge: when the loft wants one at a hold and at the signature, and that nothing opens without it. */
import { describe, expect, it } from 'vitest';
import type { PinPolicy } from '../../../src/domain/pin';
import { step } from '../autopilot';
import type { Given } from './pin-pack';
import { atHold, badge, reasons, releaseAndGoOn, STORED } from './pin-pack';

describe('a hold where the loft wants a PIN', () => {
  it.each<[string, PinPolicy, Given, string]>([
    ['opens to the badge alone where no PIN is wanted', 'never', null, 'inspecting'],
    ['does not open to the badge alone', 'eachHold', null, 'waitingForInspector'],
    ['does not open to the badge alone at its first use', 'firstUse', null, 'waitingForInspector'],
    ['does not open with a wrong PIN', 'eachHold', 'wrong', 'waitingForInspector'],
    ['does not open with a wrong PIN where none was wanted', 'never', 'wrong', 'waitingForInspector'],
    ['opens with the PIN', 'eachHold', 'fits', 'inspecting'],
    ['opens with the PIN at first use', 'firstUse', 'fits', 'inspecting'],
  ])('%s', (...[, policy, pin, phase]) => {
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
