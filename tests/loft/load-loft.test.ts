/** The files of a loft together: what one broken file costs, and every fault of settings, people and assemblies. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { fetchLoftFiles } from '../../src/kiosk/loft/loft-files';
import type { LoftFileText } from '../../src/loft/load-loft';
import { kindOfFile, loadLoft } from '../../src/loft/load-loft';
import { ASSEMBLIES_FILE_MAX, FILES_MAX } from '../../src/loft/file-limits';
import { ASSEMBLIES_MAX } from '../../src/loft/parse-assemblies';
import { PEOPLE_MAX } from '../../src/loft/parse-people';

const sound = readFileSync(join(import.meta.dirname, 'sound.yaml'), 'utf8');

const SETTINGS = `name: Small loft
place: Here
table: Table 1
verdictSeconds: 60
speakingRate: 1
repackRules:
  - { id: days, title: Days, days: 180, boundary: inclusive }
  - { id: months, title: Months, months: 6, boundary: exclusive }
`;

/** Of a badge. */
const DIGEST = 'ab'.repeat(32);

const PERSON = `  - id: ada
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
const PEOPLE = `people:\n${PERSON}`;

const component = (kind: string, serial: string): string => `      - kind: ${kind}
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
const ASSEMBLY = `  - id: one
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
const ASSEMBLIES = `assemblies:\n${ASSEMBLY}`;

type Name = 'loft.yaml' | 'people.yaml' | 'assemblies.yaml' | 'procedures/sound.yaml';
const FILES: Readonly<Record<Name, string>> = {
  'loft.yaml': SETTINGS,
  'people.yaml': PEOPLE,
  'assemblies.yaml': ASSEMBLIES,
  'procedures/sound.yaml': sound,
};

const filesWith = (change: Partial<Record<string, string | null>> = {}): readonly LoftFileText[] =>
  Object.entries({ ...FILES, ...change }).flatMap(([path, text]) =>
    text === null || text === undefined ? [] : [{ path, text }],
  );

/** Replaces exactly one place, so that a test cannot silently test nothing. */
const change = (text: string, from: string, to: string): string => {
  expect(text.split(from).length, `"${from}" stands once in the file`).toBe(2);
  return text.replace(from, to);
};

describe('what lint takes, the kiosk takes, and what the one refuses, the other does', () => {
  const other = (certificate: string): string =>
    PERSON.replace('id: ada', 'id: bea').replace('certificate: C 1', certificate).replace(DIGEST, 'cd'.repeat(32));
  const people = (second: string): string => `${PEOPLE}${other(`certificate: ${second}`)}`;

  it.each(['C 1', 'c1', 'C  1', 'c 1'])('two people with one certificate number: "C 1" and "%s"', (second) => {
    const { refused, loft } = loadLoft(filesWith({ 'people.yaml': people(second) }));
    expect(refused.map(({ fault }) => fault)).toEqual(['duplicate-certificate']);
    expect(loft).toBeNull();
  });

  it('but not two certificates that differ, and people without one', () => {
    expect(loadLoft(filesWith({ 'people.yaml': people('C 11') })).refused).toEqual([]);
    expect(
      loadLoft(filesWith({ 'people.yaml': `people:\n${PERSON.replace('C 1', 'null')}${other('certificate: null')}` }))
        .refused,
    ).toEqual([]);
  });

  it('a text that was no UTF-8 is refused on its line', () => {
    const bytes = new Uint8Array([
      ...new TextEncoder().encode('name: Loft of L'),
      0xfc,
      ...new TextEncoder().encode('tz\n'),
    ]);
    const lost = change(SETTINGS, 'name: Small loft\n', new TextDecoder().decode(bytes));
    expect(loadLoft(filesWith({ 'loft.yaml': lost })).refused).toMatchObject([{ fault: 'not-yaml', line: 1 }]);
  });

  it('more files than a kiosk fetches', () => {
    const more = (count: number): Partial<Record<string, string>> =>
      Object.fromEntries(Array.from({ length: count }, (_, n) => [`procedures/more-${String(n)}.yaml`, '']));
    const faultsOf = (count: number) => loadLoft(filesWith(more(count))).refused.map(({ fault }) => fault);
    expect(faultsOf(FILES_MAX - 4)).not.toContain('too-many');
    expect(faultsOf(FILES_MAX - 3)).toContain('too-many');
    expect(loadLoft(filesWith(more(FILES_MAX - 3))).loft).toBeNull();
  });

  const fetched = (text: (path: string) => string) => {
    const answers = vi.fn((url: string) =>
      Promise.resolve(new Response(url.endsWith('index.json') ? '["assemblies.yaml","loft.yaml"]' : text(url))),
    );
    vi.stubGlobal('fetch', answers);
    return fetchLoftFiles('/').finally(() => vi.unstubAllGlobals());
  };

  it('an assemblies file of two megabytes, and no other file so long', async () => {
    const long = `${ASSEMBLIES}# ${'x'.repeat(2_000_000)}\n`;
    expect(loadLoft(filesWith({ 'assemblies.yaml': long })).refused).toEqual([]);
    expect((await fetched((url) => (url.endsWith('assemblies.yaml') ? long : SETTINGS))).ok).toBe(true);
    const settings = `${SETTINGS}# ${'x'.repeat(2_000_000)}\n`;
    expect(loadLoft(filesWith({ 'loft.yaml': settings })).refused).toMatchObject([{ fault: 'too-large' }]);
    expect((await fetched((url) => (url.endsWith('loft.yaml') ? settings : ASSEMBLIES))).ok).toBe(false);
  });
});

describe('a loft', () => {
  it('is loaded whole from sound files', () => {
    const { loft, refused } = loadLoft(filesWith());
    expect(refused).toEqual([]);
    expect(loft?.settings.repackRules.map((rule) => rule.interval)).toEqual([{ days: 180 }, { months: 6 }]);
    expect(loft?.people[0]?.badges).toEqual([DIGEST]);
    expect(loft?.assemblies[0]).toMatchObject({ openAt: null, procedure: 'sound' });
    expect(loft?.assemblies[0]?.components[0]).toMatchObject({ serial: 'BB-001', outstanding: [] });
    expect(loft?.procedures.map((procedure) => procedure.id)).toEqual(['sound']);
  });

  it('takes what it sets about scanners and labels, and has neither without', () => {
    const scanner = 'scanner: { prefix: "~1", suffix: "\\x04" }\ncode39Check: [badge]\nplace: Here';
    const { loft } = loadLoft(filesWith({ 'loft.yaml': change(SETTINGS, 'place: Here', scanner) }));
    expect(loft?.settings.scanner).toEqual({ prefix: '~1', suffix: '\u0004', keyboard: 'us' });
    expect(loft?.settings.code39Check).toEqual(['badge']);
    expect(loadLoft(filesWith()).loft?.settings.scanner).toBeUndefined();
  });

  it('sets a broken procedure aside and keeps the others, and the assemblies that need it', () => {
    const { loft, refused } = loadLoft(
      filesWith({
        'procedures/other.yaml': 'stages: []\n',
        'assemblies.yaml': change(ASSEMBLIES, 'procedure: sound', 'procedure: other'),
      }),
    );
    expect(loft?.procedures.map((procedure) => procedure.id)).toEqual(['sound']);
    expect(loft?.assemblies[0]?.procedure).toBe('other');
    expect(new Set(refused.map((one) => one.file))).toEqual(new Set(['procedures/other.yaml']));
  });

  it.each<Name>(['loft.yaml', 'people.yaml', 'assemblies.yaml'])('is none when %s is broken', (name) => {
    const { loft, refused } = loadLoft(filesWith({ [name]: '[' }));
    expect(loft).toBeNull();
    expect(refused).toMatchObject([{ file: name, line: 1, fault: 'not-yaml' }]);
  });

  it.each<Name>(['loft.yaml', 'people.yaml', 'assemblies.yaml'])('is none when %s is missing', (name) => {
    const { loft, refused } = loadLoft(filesWith({ [name]: null }));
    expect(loft).toBeNull();
    expect(refused).toMatchObject([{ file: name, fault: 'missing-file' }]);
  });

  it('is none when two files claim to be the people', () => {
    const { loft, refused } = loadLoft(filesWith({ 'old/people.yaml': PEOPLE }));
    expect(loft).toBeNull();
    expect(refused).toMatchObject([{ file: 'old/people.yaml', fault: 'duplicate-file' }]);
  });

  it('uses neither of two procedures of one name', () => {
    const { loft, refused } = loadLoft(filesWith({ 'more/procedures/sound.yaml': sound }));
    expect(loft?.procedures).toEqual([]);
    expect(refused.map((one) => one.fault)).toEqual(['duplicate-file', 'duplicate-file']);
  });

  it('says when a file lies where nothing looks for it, and passes over what is no YAML', () => {
    const { loft, refused } = loadLoft(filesWith({ 'procedure/x.yaml': sound, 'y.yml': sound, 'README.md': '#' }));
    expect(loft).not.toBeNull();
    expect(refused.map((one) => [one.file, one.fault])).toEqual([
      ['procedure/x.yaml', 'unknown-file'],
      ['y.yml', 'unknown-file'],
    ]);
  });

  it('knows its files by their path, under any folder', () => {
    expect(['loft.yaml', 'a/people.yaml', 'b/assemblies.yaml', 'c/procedures/x.yaml'].map(kindOfFile)).toEqual([
      'settings',
      'people',
      'assemblies',
      'procedure',
    ]);
    expect(['xloft.yaml', 'procedures/a/b.yaml', 'procedures/x.txt', ''].map(kindOfFile)).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });
});

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

describe('sizes', () => {
  const many = (count: number): string =>
    Array.from({ length: count }, (_, n) =>
      PERSON.replace('id: ada', `id: p-${String(n)}`)
        .replace('C 1', `C ${String(n)}`)
        .replace(DIGEST, String(n).padStart(64, 'a')),
    ).join('');

  it('five hundred people are enough', () => {
    expect(loadLoft(filesWith({ 'people.yaml': `people:\n${many(PEOPLE_MAX)}` })).loft?.people).toHaveLength(500);
    const { loft, refused } = loadLoft(filesWith({ 'people.yaml': `people:\n${many(PEOPLE_MAX + 1)}` }));
    expect(loft).toBeNull();
    expect(refused.map((one) => one.fault)).toEqual(['too-many']);
  });

  it('five thousand assemblies are enough, and there is room for them in the file', () => {
    expect(ASSEMBLIES_MAX).toBe(5000);
    expect(ASSEMBLY.length * ASSEMBLIES_MAX).toBeLessThan(ASSEMBLIES_FILE_MAX);
    const tooMany = `assemblies:\n${'  - {}\n'.repeat(ASSEMBLIES_MAX + 1)}`;
    const { refused } = loadLoft(filesWith({ 'assemblies.yaml': tooMany }));
    expect(refused.map((one) => one.fault)).toContain('too-many');
  });
});
