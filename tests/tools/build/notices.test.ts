/** Notices: every package that a production install has is named with its full text. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { gatherNotices, productionPackages } from '../../../src/tools/build/notices.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const notices = gatherNotices(root);
const lock: { packages: Record<string, { version: string; dev?: boolean; link?: boolean }> } = JSON.parse(
  readFileSync(`${root}/package-lock.json`, 'utf8'),
);
const OWN = ['src/speech/grammar', 'src/speech/web-speech'];
const direct = ['.', ...OWN]
  .flatMap((folder) =>
    Object.keys(JSON.parse(readFileSync(`${root}/${folder}/package.json`, 'utf8')).dependencies ?? {}),
  )
  .filter((name) => !name.startsWith('@stowcall/'));

describe('notices', () => {
  it('name every production package of the lock file with its version', () => {
    const names = notices.map(({ name, version }) => `${name}@${version}`);
    const wanted = Object.entries(lock.packages)
      .filter(([path, { dev, link }]) => path !== '' && dev !== true && link !== true && !OWN.includes(path))
      .map(([path, { version }]) => `${path.slice(path.lastIndexOf('node_modules/') + 13)}@${version}`);
    expect(wanted.length).toBeGreaterThan(direct.length);
    expect(names).toEqual(expect.arrayContaining(wanted));
    expect(productionPackages(root).map(({ name }) => name)).toEqual(expect.arrayContaining(direct));
  });

  it.each(['Acoustic model, US English', 'CMU Pronouncing Dictionary', 'Flite voices', 'zxing-cpp', 'libzueci'])(
    'name what lies inside packages: %s',
    (name) => {
      expect(notices.filter((notice) => notice.name === name)).toHaveLength(1);
    },
  );

  it('each has a licence and a text that is long enough to be one', () => {
    for (const { name, licence, text } of notices) {
      expect([name, licence !== '', text.length > 400]).toEqual([name, true, true]);
    }
  });

  it('the texts are the right ones', () => {
    const text = (name: string) => notices.find((notice) => notice.name === name)?.text ?? '';
    expect(text('Acoustic model, US English')).toContain('Alpha Cephei');
    expect(text('soundswallower')).toContain('Carnegie Mellon University');
    expect(text('Flite voices')).toContain('Carnegie Mellon University');
    expect(text('zxing-cpp')).toContain('Apache License');
    expect(text('vite')).not.toContain('Bundled dependencies');
  });
});
