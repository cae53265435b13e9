/** Every fault of settings, people and assemblies is refused with its line. */
import { describe, expect, it } from 'vitest';
import { loadLoft } from '../../src/loft/load-loft';
import type { Name } from './small-loft';
import { ASSEMBLIES, ASSEMBLY, DIGEST, FILES, PEOPLE, PERSON, change, component, filesWith } from './small-loft';

describe('a fault in settings, people or assemblies is refused with its line', () => {
  const cases: readonly [string, Name, string, string, number][] = [
    ['missing-field', 'loft.yaml', 'place: Here\n', '', 1],
    ['unknown-field', 'loft.yaml', 'place: Here', 'plaice: Here\nplace: Here', 2],
    ['too-small', 'loft.yaml', 'verdictSeconds: 60', 'verdictSeconds: 4', 4],
    ['too-big', 'loft.yaml', 'verdictSeconds: 60', 'verdictSeconds: 901', 4],
    ['too-big', 'loft.yaml', 'speakingRate: 1', 'speakingRate: 2.1', 5],
    ['too-small', 'loft.yaml', 'days: 180', 'days: 0', 7],
    ['either-or', 'loft.yaml', 'days: 180', 'days: 180, months: 6', 7],
    ['either-or', 'loft.yaml', 'days: 180, ', '', 7],
    ['unknown-word', 'loft.yaml', 'boundary: exclusive', 'boundary: perhaps', 8],
    ['duplicate-id', 'loft.yaml', 'id: months', 'id: days', 8],
    ['unknown-word', 'loft.yaml', 'place: Here', 'scanner: { keyboard: dvorak }\nplace: Here', 2],
    ['unknown-field', 'loft.yaml', 'place: Here', 'scanner: { speed: 9 }\nplace: Here', 2],
    ['unknown-word', 'loft.yaml', 'place: Here', 'code39Check: [card]\nplace: Here', 2],
    [
      'duplicate-id',
      'people.yaml',
      PEOPLE,
      `people:\n${PERSON}${PERSON.replace(DIGEST, 'cd'.repeat(32)).replace('C 1', 'C 2')}`,
      12,
    ],
    [
      'duplicate-badge',
      'people.yaml',
      PEOPLE,
      `people:\n${PERSON}${PERSON.replace('id: ada', 'id: bea').replace('C 1', 'C 2')}`,
      21,
    ],
    ['duplicate-badge', 'people.yaml', `['${DIGEST}']`, `['${DIGEST}', '${DIGEST}']`, 11],
    ['dates-reversed', 'people.yaml', 'validTo: "2026-12-31"', 'validTo: "2025-12-31"', 9],
    ['bad-date', 'people.yaml', 'validTo: "2026-12-31"', 'validTo: "2026-12-32"', 9],
    ['bad-id', 'people.yaml', DIGEST, DIGEST.toUpperCase(), 11],
    ['bad-id', 'people.yaml', DIGEST, DIGEST.slice(1), 11],
    ['bad-id', 'people.yaml', DIGEST, '0123456789ABCDEF', 11],
    ['unknown-word', 'people.yaml', 'roles: [rigger]', 'roles: [king]', 5],
    ['wrong-type', 'people.yaml', 'revoked: false', 'revoked: no', 10],
    ['missing-field', 'people.yaml', '    revoked: false\n', '', 2],
    ['too-few', 'people.yaml', PEOPLE, 'people: []\n', 1],
    ['unknown-reference', 'assemblies.yaml', 'procedure: sound', 'procedure: lost', 7],
    ['unknown-reference', 'assemblies.yaml', 'repackRule: days', 'repackRule: lost', 8],
    ['wrong-kinds', 'assemblies.yaml', 'kind: canopy', 'kind: bag', 9],
    ['wrong-kinds', 'assemblies.yaml', component('canopy', 'DD-003'), '', 9],
    ['duplicate-serial', 'assemblies.yaml', 'serial: DD-003', 'serial: BB-001', 32],
    ['duplicate-serial', 'assemblies.yaml', 'otherMarks: [OLD-DD-003]', 'otherMarks: [CC-002]', 33],
    ['bad-id', 'assemblies.yaml', 'serial: BB-001', 'serial: BB001', 12],
    ['bad-id', 'assemblies.yaml', 'serial: BB-001', 'serial: bb-001', 12],
    ['bad-id', 'assemblies.yaml', 'serial: BB-001', 'serial: B-01', 12],
    ['bad-id', 'assemblies.yaml', 'otherMarks: [OLD-BB-001]', 'otherMarks: [old]', 13],
    ['unknown-word', 'assemblies.yaml', 'kind: canopy', 'kind: harness', 30],
    ['too-small', 'assemblies.yaml', component('bag', 'BB-001'), component('bag', 'BB-001').replace('20\n', '0\n'), 16],
    [
      'missing-field',
      'assemblies.yaml',
      component('bag', 'BB-001'),
      component('bag', 'BB-001').replace('        lastPackedOn: null\n', ''),
      10,
    ],
  ];

  it.each(cases)('%s in %s', (...[fault, name, from, to, line]) => {
    const { loft, refused } = loadLoft(filesWith({ [name]: change(FILES[name], from, to) }));
    expect(loft).toBeNull();
    expect(refused).toMatchObject([{ file: name, fault, line }]);
  });

  it('two assemblies may not share an id', () => {
    const second = ASSEMBLY.replaceAll(/\b(BB|CC|DD)-/g, 'X$1-');
    const { refused } = loadLoft(filesWith({ 'assemblies.yaml': ASSEMBLIES + second }));
    expect(refused.map((one) => one.fault)).toEqual(['duplicate-id']);
    const apart = loadLoft(filesWith({ 'assemblies.yaml': ASSEMBLIES + second.replace('id: one', 'id: two') }));
    expect(apart.loft?.assemblies).toHaveLength(2);
  });
});
