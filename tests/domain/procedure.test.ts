/** Looking things up in a procedure and in a loft. */
import { describe, expect, it } from 'vitest';
import type { Assembly } from '../../src/domain/component/component';
import type { Loft } from '../../src/domain/loft';
import { personById, procedureById, procedureFor, repackRuleFor } from '../../src/domain/loft';
import type { Hold, Procedure, Stage } from '../../src/domain/procedure';
import { holdsOf, itemsExpectedBefore, stageOf } from '../../src/domain/procedure';

const hold: Hold = { id: 'h', title: 'H', inspectorClass: 'final', inspect: ['I'], findings: [] };
const base = (number: number, withHold: Hold | null = null) => ({
  id: `s${String(number)}`,
  number,
  title: 'T',
  steps: ['S'],
  caution: null,
  hold: withHold,
});
const stages: readonly Stage[] = [
  { ...base(1), kind: 'place', item: 'tie' },
  { ...base(2, hold), kind: 'place', item: 'pin' },
  { ...base(3), kind: 'remove', item: 'tie' },
  { ...base(4), kind: 'remove', item: 'pin' },
  { ...base(5), kind: 'confirm' },
];
const procedure: Procedure = {
  id: 'p',
  title: 'P',
  revision: '1',
  effectiveOn: '2026-01-01',
  models: ['M'],
  components: [],
  tools: [],
  temporaryItems: [
    { id: 'tie', name: 'Tie' },
    { id: 'pin', name: 'Pin' },
  ],
  stages,
};

describe('a procedure', () => {
  it.each<[number, readonly string[]]>([
    [1, []],
    [2, ['tie']],
    [3, ['tie', 'pin']],
    [4, ['pin']],
    [5, []],
    [6, []],
  ])('has these temporary items in when stage %i begins: %j', (number, items) => {
    expect(itemsExpectedBefore(procedure, number)).toEqual(items);
  });

  it('finds its stages and holds', () => {
    expect(stageOf(procedure, 's3')?.number).toBe(3);
    expect(stageOf(procedure, 's9')).toBeNull();
    expect(holdsOf(procedure).map((one) => [one.hold.id, one.stage.id])).toEqual([['h', 's2']]);
  });
});

describe('a loft', () => {
  const assembly = { id: 'a', model: 'M', procedure: 'p', repackRule: 'r' } as Assembly;
  const rule = { id: 'r', title: 'R', interval: { days: 60 }, boundary: 'inclusive' } as const;
  const loft = {
    settings: { repackRules: [rule] },
    people: [{ id: 'ada' }, { id: 'ben' }],
    assemblies: [assembly],
    procedures: [procedure],
  } as unknown as Loft;

  it('gives an assembly its procedure and rule', () => {
    expect(procedureFor(loft, assembly)).toBe(procedure);
    expect(repackRuleFor(loft, assembly)).toBe(rule);
  });

  it('finds the person of an id, and nobody else', () => {
    expect(personById(loft, 'ben')?.id).toBe('ben');
  });

  it('gives none where the procedure is missing or does not apply to the model', () => {
    expect(procedureFor(loft, { ...assembly, procedure: 'x' })).toBeNull();
    expect(procedureFor(loft, { ...assembly, model: 'N' })).toBeNull();
    expect(procedureById(loft, 'x')).toBeNull();
    expect(repackRuleFor(loft, { ...assembly, repackRule: 'x' })).toBeNull();
    expect(personById(loft, 'x')).toBeNull();
  });
});
