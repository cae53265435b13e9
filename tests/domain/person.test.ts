/** Who may pack and who may inspect: every refusal, and that the packer's own badge is refused before all else. */
import { describe, expect, it } from 'vitest';
import type { Person } from '../../src/domain/person';
import { mayEnrol, mayInspect, mayPack, personOfBadge } from '../../src/domain/person';

const person = (rest: Partial<Person> = {}): Person => ({
  id: 'p1',
  name: 'Ada Quill',
  certificate: 'QRL-1',
  roles: ['rigger', 'inspector'],
  models: ['M1'],
  holdClasses: ['in-process'],
  validFrom: '2026-01-01',
  validTo: '2026-12-31',
  revoked: false,
  badges: ['AAAA', 'BBBB'],
  ...rest,
});

const on = '2026-06-01';

describe('packing', () => {
  it('is open to a qualified rigger on both end days', () => {
    for (const day of ['2026-01-01', on, '2026-12-31']) expect(mayPack(person(), 'M1', day).ok).toBe(true);
  });

  it.each<[string, Partial<Person>, string, string, string]>([
    [
      'not-a-rigger',
      { roles: ['inspector', 'lead'] },
      'M1',
      on,
      'Ada Quill is not a rigger. A qualified rigger must pack.',
    ],
    ['not-a-rigger', { roles: ['trainee'] }, 'M1', on, 'Ada Quill is not a rigger. A qualified rigger must pack.'],
    ['not-for-model', {}, 'M2', on, 'Ada Quill is not qualified for model M2. Another rigger must pack.'],
    ['not-yet-valid', {}, 'M1', '2025-12-31', 'The qualification of Ada Quill begins on 1 January 2026. Ask the lead.'],
    ['expired', {}, 'M1', '2027-01-01', 'The qualification of Ada Quill ended on 31 December 2026. Ask the lead.'],
    ['revoked', { revoked: true }, 'M1', on, 'The qualification of Ada Quill is revoked. Ask the lead.'],
    [
      'no-certificate',
      { certificate: null },
      'M1',
      on,
      'Ada Quill has no certificate number, so nothing can be signed. Ask the lead.',
    ],
    [
      'no-certificate',
      { certificate: ' ' },
      'M1',
      on,
      'Ada Quill has no certificate number, so nothing can be signed. Ask the lead.',
    ],
  ])('%s', (reason, rest, ...[model, day, detail]) => {
    expect(mayPack(person(rest), model, day)).toEqual({ ok: false, reason, detail });
  });
});

describe('inspecting', () => {
  const inspection = { model: 'M1', holdClass: 'in-process', packers: ['p2'], on } as const;

  it('is open to a qualified inspector who has not packed', () => {
    expect(mayInspect(person(), inspection).ok).toBe(true);
  });

  const packed = 'Ada Quill has packed this assembly and may not inspect it. Call another inspector.';

  it.each<[string, Partial<Person>, Partial<Parameters<typeof mayInspect>[1]>, string]>([
    ['is-packer', {}, { packers: ['p1'] }, packed],
    ['is-packer', {}, { packers: ['p2', 'p1', 'p3'] }, packed],
    ['not-an-inspector', { roles: ['rigger', 'lead'] }, {}, 'Ada Quill is not an inspector. Call an inspector.'],
    ['not-for-model', {}, { model: 'M2' }, 'Ada Quill is not qualified for model M2. Call another inspector.'],
    [
      'not-for-class',
      {},
      { holdClass: 'final' },
      'Ada Quill may not inspect holds of class final. Call another inspector.',
    ],
    [
      'not-yet-valid',
      { validFrom: '2026-06-02' },
      {},
      'The qualification of Ada Quill begins on 2 June 2026. Ask the lead.',
    ],
    ['expired', { validTo: '2026-05-31' }, {}, 'The qualification of Ada Quill ended on 31 May 2026. Ask the lead.'],
    ['revoked', { revoked: true }, {}, 'The qualification of Ada Quill is revoked. Ask the lead.'],
    [
      'no-certificate',
      { certificate: null },
      {},
      'Ada Quill has no certificate number, so nothing can be signed. Ask the lead.',
    ],
  ])('%s', (...[reason, rest, change, detail]) => {
    expect(mayInspect(person(rest), { ...inspection, ...change })).toEqual({ ok: false, reason, detail });
  });

  it('is open on both end days', () => {
    expect(mayInspect(person({ validFrom: on, validTo: on }), inspection).ok).toBe(true);
  });

  it('says "packer" first, even to somebody who is also expired and revoked', () => {
    const wreck = person({ revoked: true, validTo: '2026-01-02', roles: [] });
    expect(mayInspect(wreck, { ...inspection, packers: ['p1'] })).toMatchObject({ reason: 'is-packer' });
  });
});

describe('teaching the kiosk a voice', () => {
  it.each<Person['roles']>([['rigger'], ['inspector'], ['lead', 'inspector']])('is open to %o', (...roles) => {
    for (const day of ['2026-01-01', '2026-12-31']) expect(mayEnrol(person({ roles }), day).ok).toBe(true);
  });

  it.each<[string, Partial<Person>, string]>([
    ['no-commands', { roles: ['clerk', 'trainee', 'lead'] }, on],
    ['not-yet-valid', {}, '2025-12-31'],
    ['expired', {}, '2027-01-01'],
    ['revoked', { revoked: true }, on],
    ['no-certificate', { certificate: null }, on],
  ])('%s', (reason, rest, day) => {
    expect(mayEnrol(person(rest), day)).toMatchObject({ ok: false, reason });
  });
});

describe('badges', () => {
  it('lead to their holder, each of them', () => {
    expect(personOfBadge([person()], 'BBBB')?.id).toBe('p1');
    expect(personOfBadge([person()], 'CCCC')).toBeNull();
  });
});
