/** Offline: every built file is in the service worker's list, so that nothing is missing without a network. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../..', import.meta.url));
let dist: string;
let files: readonly string[];
let listed: ReadonlyMap<string, string | null>;

beforeAll(() => {
  dist = mkdtempSync(join(tmpdir(), 'stowcall-dist-'));
  // As a person builds it: in a process of its own, without this runner's settings.
  const vite = join(root, 'node_modules/vite/bin/vite.js');
  const args = [vite, 'build', '--logLevel', 'error', '--outDir', dist, '--emptyOutDir'];
  execFileSync(process.execPath, args, { cwd: root, env: { ...process.env, NODE_ENV: 'production', VITEST: '' } });
  files = readdirSync(dist, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(dist, join(entry.parentPath, entry.name)))
    .sort();
  const entries = readFileSync(join(dist, 'sw.js'), 'utf8').matchAll(/\{url:"([^"]+)",revision:(?:"([^"]+)"|null)\}/g);
  listed = new Map([...entries].map(([, url, revision]) => [url!, revision ?? null]));
}, 120_000);
afterAll(() => rmSync(dist, { recursive: true, force: true }));

describe('the built page', () => {
  it('has engines, model, loft and notices', () => {
    const yaml = readdirSync(join(root, 'demo-data'), { recursive: true, encoding: 'utf8' }).filter(
      (path) =>
        // What badges are printed from is never served.
        path.endsWith('.yaml') && path !== 'badges.yaml',
    );
    expect(yaml.length).toBeGreaterThan(0);
    expect(JSON.parse(readFileSync(join(dist, 'loft/index.json'), 'utf8')).sort()).toEqual(yaml.sort());
    expect(files).toEqual(
      expect.arrayContaining([
        'engine/flite.wasm',
        'engine/model/dict.txt',
        'engine/model/feat_params.json',
        'engine/model/mdef',
        'engine/model/means',
        'engine/model/sendump',
        'engine/model/transition_matrices',
        'engine/model/variances',
        'engine/soundswallower.web.wasm',
        'engine/zxing_reader.wasm',
        'icon.svg',
        'index.html',
        'manifest.webmanifest',
        'notices.json',
        ...yaml.map((path) => `loft/${path}`),
      ]),
    );
  });

  it('is stored whole by the service worker', () => {
    expect([...listed.keys()].sort()).toEqual(files.filter((file) => file !== 'sw.js'));
  });

  it('a file whose name does not change is listed with the hash of its content', () => {
    for (const [file, revision] of listed) {
      if (file.startsWith('assets/')) continue;
      const hash = createHash('md5')
        .update(readFileSync(join(dist, file)))
        .digest('hex');
      expect([file, revision]).toEqual([file, hash]);
    }
  });

  it('the service worker takes over only when the page asks for it, and nothing new is installed during a pack', () => {
    const worker = readFileSync(join(dist, 'sw.js'), 'utf8');
    // The one call there is answers a message that nobody but a page can send.
    expect(worker.match(/skipWaiting\(\)/g)).toHaveLength(1);
    expect(worker).toMatch(/"SKIP_WAITING"===[^;]{0,60}skipWaiting\(\)/);
    // Before the listener that stores the files, or it could not hold that back.
    expect(worker).toMatch(/importScripts\([^)]*"open-pack-guard\.js"[^)]*\)/);
    expect(worker.indexOf('importScripts(')).toBeLessThan(worker.indexOf('{url:"'));
  });

  it('has no script and no style inside the page, and asks no other origin for anything', () => {
    const html = readFileSync(join(dist, 'index.html'), 'utf8');
    expect(html).not.toMatch(/<style|style=|<script(?![^>]*\ssrc=)|\son[a-z]+=|https?:/);
  });

  it('carries each engine once', () => {
    const wasm = files.filter((file) => file.endsWith('.wasm'));
    expect(wasm).toEqual(['engine/flite.wasm', 'engine/soundswallower.web.wasm', 'engine/zxing_reader.wasm']);
    expect(statSync(join(dist, 'engine/flite.wasm')).size).toBeGreaterThan(20_000_000);
  });

  it('its manifest names icons that are there', () => {
    const { icons } = JSON.parse(readFileSync(join(dist, 'manifest.webmanifest'), 'utf8'));
    expect(files).toEqual(expect.arrayContaining(icons.map(({ src }: { src: string }) => src)));
  });
});
