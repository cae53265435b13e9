/** The files of a loft together: what one broken file costs. */
import { describe, expect, it, vi } from 'vitest';
import { fetchLoftFiles } from '../../src/kiosk/loft/loft-files';
import { kindOfFile, loadLoft } from '../../src/loft/load-loft';
import { ASSEMBLIES_FILE_MAX, FILES_MAX } from '../../src/loft/file-limits';
import { ASSEMBLIES_MAX } from '../../src/loft/parse-assemblies';
import { PEOPLE_MAX } from '../../src/loft/parse-people';
import type { Name } from './small-loft';
import { ASSEMBLIES, ASSEMBLY, DIGEST, PEOPLE, PERSON, SETTINGS, change, filesWith, sound } from './small-loft';

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
