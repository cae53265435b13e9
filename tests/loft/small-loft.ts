/** The files of a small sound loft, and the same with one thing changed. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import type { LoftFileText } from '../../src/loft/load-loft';

export const sound = readFileSync(join(import.meta.dirname, 'sound.yaml'), 'utf8');

export const SETTINGS = `name: Small loft
place: Here
table: Table 1
verdictSeconds: 60
speakingRate: 1
repackRules:
  - { id: days, title: Days, days: 180, boundary: inclusive }
  - { id: months, title: Months, months: 6, boundary: exclusive }
`;

/** Of a badge. */
export const DIGEST = 'ab'.repeat(32);

export const PERSON = `  - id: ada
    name: Ada
    certificate: C 1
    roles: [rigger]
    models: [Model A]
    holdClasses: []
    validFrom: "2026-01-01"
    validTo: "2026-12-31"
    revoked: false
    badges: ['${DIGEST}']
`;
export const PEOPLE = `people:\n${PERSON}`;

export const component = (kind: string, serial: string): string => `      - kind: ${kind}
        model: ${kind} A
        serial: ${serial}
        otherMarks: [OLD-${serial}]
        madeOn: "2020-01-01"
        inServiceOn: null
        lifeYearsFromMade: 20
        lifeYearsFromService: null
        lastPackedOn: null
        lastInspectedOn: null
`;
export const ASSEMBLY = `  - id: one
    name: One
    model: Model A
    typeAndMake: Type
    owner: { name: Owner, address: Street }
    procedure: sound
    repackRule: days
    components:
${component('bag', 'BB-1')}${component('container', 'CC-2')}${component('canopy', 'DD-3')}`
  .replaceAll('BB-1', 'BB-001')
  .replaceAll('CC-2', 'CC-002')
  .replaceAll('DD-3', 'DD-003');
export const ASSEMBLIES = `assemblies:\n${ASSEMBLY}`;

export type Name = 'loft.yaml' | 'people.yaml' | 'assemblies.yaml' | 'procedures/sound.yaml';
export const FILES: Readonly<Record<Name, string>> = {
  'loft.yaml': SETTINGS,
  'people.yaml': PEOPLE,
  'assemblies.yaml': ASSEMBLIES,
  'procedures/sound.yaml': sound,
};

export const filesWith = (change: Partial<Record<string, string | null>> = {}): readonly LoftFileText[] =>
  Object.entries({ ...FILES, ...change }).flatMap(([path, text]) =>
    text === null || text === undefined ? [] : [{ path, text }],
  );

/** Replaces exactly one place, so that a test cannot silently test nothing. */
export const change = (text: string, from: string, to: string): string => {
  expect(text.split(from).length, `"${from}" stands once in the file`).toBe(2);
  return text.replace(from, to);
};
