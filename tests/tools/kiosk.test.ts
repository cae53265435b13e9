/** The kiosk's browser profile, tried in real Chromium: devices for one address, and for no other. */
import { chromium } from '@playwright/test';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { findChromium } from '../../src/tools/chromium.mjs';
import { allowDevices, kioskFlags, profileFolder } from '../../src/tools/kiosk.mjs';
import { serve } from '../../src/tools/serve.mjs';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'stowcall-kiosk-'));
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, maxRetries: 5 });
});
const preferences = () => JSON.parse(readFileSync(join(folder, 'Default/Preferences'), 'utf8'));

describe('the profile', () => {
  it('lies in the home folder, or where STOWCALL_PROFILE says', () => {
    expect(profileFolder()).toMatch(/\.local\/share\/stowcall$/);
    vi.stubEnv('STOWCALL_PROFILE', folder);
    expect(profileFolder()).toBe(folder);
  });

  it('keeps what Chromium has written, and takes back what another address was allowed', () => {
    allowDevices(folder, 'http://localhost:4174/');
    const file = join(folder, 'Default/Preferences');
    writeFileSync(file, JSON.stringify({ ...preferences(), own: { kept: true } }));
    allowDevices(folder, 'http://localhost:4173/');
    expect(preferences().own).toEqual({ kept: true });
    const { media_stream_mic: microphone, media_stream_camera: camera } =
      preferences().profile.content_settings.exceptions;
    for (const device of [microphone, camera]) expect(Object.keys(device)).toEqual(['http://localhost:4173,*']);
    expect(existsSync(`${file}.new`)).toBe(false);
  });

  it('no flag allows devices to every address', () => {
    expect(kioskFlags(folder, 'http://localhost:4173/').join(' ')).not.toMatch(/fake-ui|use-fake|unsafely|disable-web/);
  });
});

describe.skipIf(findChromium() === null)('in Chromium', () => {
  it('microphone and camera are granted to the kiosk and not to another address', async () => {
    mkdirSync(join(folder, 'root/dist'), { recursive: true });
    writeFileSync(join(folder, 'root/dist/index.html'), '<!doctype html><title>Stowcall</title>');
    const kiosk = await serve({ root: join(folder, 'root'), port: 0 });
    const other = createServer((_, response) =>
      response.setHeader('content-type', 'text/html').end('<title>x</title>'),
    );
    await new Promise<void>((done) => other.listen(0, '127.0.0.1', done));
    const profile = join(folder, 'profile');
    allowDevices(profile, kiosk.url);
    const browser = await chromium.launchPersistentContext(profile, {
      executablePath: findChromium() ?? '',
      args: kioskFlags(profile, kiosk.url).filter((flag) => !/^--(user-data-dir|kiosk|app)/.test(flag)),
    });
    try {
      const page = await browser.newPage();
      const states = async (url: string) => {
        await page.goto(url);
        return page.evaluate(async () => {
          const names = ['microphone', 'camera'] as PermissionName[];
          return Promise.all(names.map(async (name) => (await navigator.permissions.query({ name })).state));
        });
      };
      expect(await states(kiosk.url)).toEqual(['granted', 'granted']);
      expect(await states(`http://localhost:${(other.address() as AddressInfo).port}/`)).toEqual(['prompt', 'prompt']);
    } finally {
      await browser.close();
      await kiosk.close();
      other.close();
    }
  });
});
