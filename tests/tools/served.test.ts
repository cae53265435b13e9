/** No badge is served: neither by the built page's list of files nor by the server for development. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createServer } from 'vite';
import { describe, expect, it } from 'vitest';
import { fetchLoftFiles } from '../../src/kiosk/loft/loft-files';
import { loftFiles } from '../../src/tools/build/page-files.mjs';
import { demoBadges } from '../e2e/support/demo-badges';

const root = fileURLToPath(new URL('../..', import.meta.url));
const RAW = demoBadges().map(({ badge }) => badge);

describe('a badge itself', () => {
  it('stands in no file that the built page is given', () => {
    const files = loftFiles(join(root, 'demo-data'));
    expect([...files.keys()]).toContain('loft/people.yaml');
    expect(existsSync(join(root, 'demo-data/badges.yaml'))).toBe(true);
    for (const [path, entry] of files) {
      const text = 'file' in entry ? readFileSync(entry.file, 'utf8') : entry.text();
      for (const badge of RAW) expect(text.includes(badge), path).toBe(false);
      expect(text).not.toContain('badges.yaml"');
    }
  });

  it('is not handed out by the server for development, under any spelling of its address', async () => {
    const server = await createServer({
      configFile: join(root, 'vite.config.ts'),
      logLevel: 'silent',
      optimizeDeps: { noDiscovery: true },
      server: { port: 0, host: 'localhost' },
    });
    try {
      await server.listen();
      const base = server.resolvedUrls?.local[0] ?? '';
      const paths = [
        'demo-data/badges.yaml',
        'demo-data/badges.yaml?raw',
        'demo-data/badges.yaml?url',
        'loft/badges.yaml',
      ];
      for (const path of [...paths, `@fs${root}demo-data/badges.yaml`, 'demo-data//badges.yaml?import&raw']) {
        const text = await (await fetch(base + path)).text();
        for (const badge of RAW) expect(text.includes(badge), path).toBe(false);
      }
    } finally {
      await server.close();
    }
  }, 60_000);

  it('stops the page where it is served all the same', async () => {
    const before = globalThis.fetch;
    globalThis.fetch = () => Promise.resolve(new Response(JSON.stringify(['loft.yaml', 'badges.yaml'])));
    try {
      expect(await fetchLoftFiles('http://localhost/')).toMatchObject({ ok: false, reason: 'loft-unreachable' });
    } finally {
      globalThis.fetch = before;
    }
  });
});
