/** Kept searches are forgotten when anything changes that they depend on. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { filesOf, fingerprintOf, SEARCHERS } from '@stowcall/web-speech/calibration/fingerprint';

const ROOT = fileURLToPath(new URL('../../../..', import.meta.url));

const FILES: Readonly<Record<string, string>> = {
  'meter.ts': "import { search } from './search';\nimport type { Row } from './row';\nexport const m = search;\n",
  'search.ts': "export { search } from './deep/certainty';\n",
  'deep/certainty.ts': "import data from './certainty.json';\nexport const search = data;\n",
  'deep/certainty.json': '{}',
  'row.ts': 'export interface Row {}\n',
  'words.txt': 'go G OW\n',
};

function project(changed: Readonly<Record<string, string>> = {}): string {
  const root = mkdtempSync(join(tmpdir(), 'stowcall-fingerprint-'));
  for (const [file, text] of Object.entries({ ...FILES, ...changed })) {
    mkdirSync(dirname(join(root, file)), { recursive: true });
    writeFileSync(join(root, file), text);
  }
  return root;
}

function printOf(changed: Readonly<Record<string, string>> = {}, more: unknown = 1): string {
  const root = project(changed);
  return fingerprintOf({ root, entries: [join(root, 'meter.ts')], data: [join(root, 'words.txt')], more });
}

describe('the fingerprint of a calibration', () => {
  it('is the same for the same files, wherever they lie', () => {
    expect(printOf()).toBe(printOf());
  });

  it.each(['search.ts', 'deep/certainty.ts', 'words.txt'])('changes with %s', (file) => {
    expect(printOf({ [file]: `${FILES[file] ?? ''}\n` })).not.toBe(printOf());
  });

  it('changes with the settings', () => {
    expect(printOf({}, 2)).not.toBe(printOf({}, 1));
  });

  it.each(['deep/certainty.json', 'row.ts'])('does not change with %s: chosen by it, or only types', (file) => {
    expect(printOf({ [file]: '{ }' })).toBe(printOf());
  });

  it('is refused where an import leads nowhere', () => {
    expect(() => printOf({ 'search.ts': "export { search } from './gone';\n" })).toThrow('./gone');
  });

  it('of the ear counts what proves a phrase, which thresholds are chosen for', () => {
    const entries = ['src/speech/web-speech/calibration/meter.ts', ...SEARCHERS].map((file) => join(ROOT, file));
    const files = filesOf(entries).map((file) => file.slice(ROOT.length));
    expect(files).toContain('src/speech/web-speech/decision/certainty.ts');
    expect(files).toContain('src/speech/web-speech/acoustics/endpointer.ts');
    expect(files).toContain('src/speech/web-speech/calibration/room.ts');
    expect(files.filter((file) => file.endsWith('certainty.json'))).toEqual([]);
  });
});
