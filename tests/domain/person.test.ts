/** Who may pack and who may inspect: every refusal, and that the packer's own badge is refused before all else. */
import { describe, expect, it } from 'vitest';
import type { Person } from '../../src/domain/person';
import { mayInspect, mayPack, personOfBadge } from '../../src/domain/person';

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

  it.each<[string, Partial<Person>, string, string]>([
    ['not-a-rigger', { roles: ['inspector', 'lead'] }, 'M1', on],
    ['not-a-rigger', { roles: ['trainee'] }, 'M1', on],
    ['not-for-model', {}, 'M2', on],
    ['not-yet-valid', {}, 'M1', '2025-12-31'],
    ['expired', {}, 'M1', '2027-01-01'],
    ['revoked', { revoked: true }, 'M1', on],
    ['no-certificate', { certificate: null }, 'M1', on],
    ['no-certificate', { certificate: ' ' }, 'M1', on],
  ])('%s', (reason, rest, model, day) => {
    const result = mayPack(person(rest), model, day);
    expect(result).toMatchObject({ ok: false, reason });
  });
});

describe('inspecting', () => {
  const inspection = { model: 'M1', holdClass: 'in-process', packers: ['p2'], on } as const;

  it('is open to a qualified inspector who has not packed', () => {
    expect(mayInspect(person(), inspection).ok).toBe(true);
  });

  it.each<[string, Partial<Person>, Partial<Parameters<typeof mayInspect>[1]>]>([
    ['is-packer', {}, { packers: ['p1'] }],
    ['is-packer', {}, { packers: ['p2', 'p1', 'p3'] }],
    ['not-an-inspector', { roles: ['rigger', 'lead'] }, {}],
    ['not-for-model', {}, { model: 'M2' }],
    ['not-for-class', {}, { holdClass: 'final' }],
    ['not-yet-valid', { validFrom: '2026-06-02' }, {}],
    ['expired', { validTo: '2026-05-31' }, {}],
    ['revoked', { revoked: true }, {}],
    ['no-certificate', { certificate: null }, {}],
  ])('%s', (reason, rest, change) => {
    expect(mayInspect(person(rest), { ...inspection, ...change })).toMatchObject({ ok: false, reason });
  });

  it('says "packer" first, even to somebody who is also expired and revoked', () => {
    const wreck = person({ revoked: true, validTo: '2026-01-02', roles: [] });
    expect(mayInspect(wreck, { ...inspection, packers: ['p1'] })).toMatchObject({ reason: 'is-packer' });
  });
});

describe('badges', () => {
  it('lead to their holder, each of them', () => {
    expect(personOfBadge([person()], 'BBBB')?.id).toBe('p1');
    expect(personOfBadge([person()], 'CCCC')).toBeNull();
  });
});
