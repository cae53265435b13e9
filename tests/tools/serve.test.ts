/** The server: the right headers on everything, nothing outside its folder, nobody but this machine. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, request } from 'node:http';
import { connect } from 'node:net';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { HEADERS, isServed, serve } from '../../src/tools/serve.mjs';

let root: string;
let serving: Awaited<ReturnType<typeof serve>>;

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'stowcall-serve-'));
  mkdirSync(join(root, 'dist/assets'), { recursive: true });
  mkdirSync(join(root, 'dist/engine/model'), { recursive: true });
  mkdirSync(join(root, 'dist-secret'));
  writeFileSync(join(root, 'secret.txt'), 'secret');
  writeFileSync(join(root, 'dist-secret/secret.txt'), 'secret');
  writeFileSync(join(root, 'dist/index.html'), '<title>Stowcall</title>');
  writeFileSync(join(root, 'dist/sw.js'), '//');
  writeFileSync(join(root, 'dist/assets/index-abc.js'), '//');
  writeFileSync(join(root, 'dist/manifest.webmanifest'), '{}');
  writeFileSync(join(root, 'dist/engine/flite.wasm'), 'x');
  writeFileSync(join(root, 'dist/engine/model/mdef'), 'x');
  serving = await serve({ root, port: 0 });
});
afterAll(async () => {
  await serving.close();
  rmSync(root, { recursive: true });
});

interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly body: string;
}
/** Asks for `path` exactly as it is written: `fetch` would tidy it first. */
function ask(path: string, options: { method?: string; headers?: Record<string, string> } = {}): Promise<Answer> {
  return new Promise((done, failed) => {
    const headers = { host: `localhost:${serving.port}`, ...options.headers };
    const asking = request({ host: '127.0.0.1', port: serving.port, path, ...options, headers }, (response) => {
      let body = '';
      response.on('data', (chunk: Buffer) => (body += chunk.toString()));
      response.on('end', () => done({ status: response.statusCode ?? 0, headers: response.headers, body }));
    });
    asking.on('error', failed);
    asking.end();
  });
}

describe('what is served', () => {
  it.each([
    ['/', 'text/html; charset=utf-8', 'no-cache'],
    ['/index.html', 'text/html; charset=utf-8', 'no-cache'],
    ['/?source=kiosk', 'text/html; charset=utf-8', 'no-cache'],
    ['/sw.js', 'text/javascript; charset=utf-8', 'no-cache'],
    ['/assets/index-abc.js', 'text/javascript; charset=utf-8', 'public, max-age=31536000, immutable'],
    ['/manifest.webmanifest', 'application/manifest+json; charset=utf-8', 'no-cache'],
    ['/engine/flite.wasm', 'application/wasm', 'no-cache'],
    ['/engine/model/mdef', 'application/octet-stream', 'no-cache'],
  ])('%s as %s, cached as %s', async (path, type, cache) => {
    const { status, headers } = await ask(path);
    expect([status, headers['content-type'], headers['cache-control']]).toEqual([200, type, cache]);
  });

  it('is not sent again when the browser has it', async () => {
    const { headers } = await ask('/sw.js');
    const again = await ask('/sw.js', { headers: { 'if-none-match': String(headers['etag']) } });
    expect([again.status, again.body]).toEqual([304, '']);
  });

  it('HEAD tells the length alone', async () => {
    const { status, headers, body } = await ask('/', { method: 'HEAD' });
    expect([status, headers['content-length'], body]).toEqual([200, '23', '']);
  });
});

describe('headers', () => {
  it.each(['/', '/engine/model/mdef', '/nothing-here', '/../secret.txt'])('are all on %s', async (path) => {
    const { headers } = await ask(path);
    for (const [name, value] of Object.entries(HEADERS)) expect([name, headers[name]]).toEqual([name, value]);
  });

  it('let scripts and connections go to this origin only, and no script be written inline', () => {
    const csp = new Map(HEADERS['content-security-policy'].split('; ').map((rule) => [rule.split(' ')[0], rule]));
    expect(csp.get('default-src')).toBe("default-src 'none'");
    expect(csp.get('connect-src')).toBe("connect-src 'self'");
    expect(csp.get('script-src')).toBe("script-src 'self' 'wasm-unsafe-eval'");
    expect(HEADERS['content-security-policy']).not.toMatch(/unsafe-inline|'unsafe-eval'|https?:|\*/);
  });

  it('allow microphone and camera to this page, and location to nobody', () => {
    const policy = HEADERS['permissions-policy'].split(', ');
    expect(policy).toEqual(expect.arrayContaining(['camera=(self)', 'microphone=(self)', 'geolocation=()', 'usb=()']));
  });
});

describe('what is refused', () => {
  it.each([
    '/../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/assets/../../secret.txt',
    '/..%5csecret.txt',
    '/../dist-secret/secret.txt',
    '//etc/passwd',
    '/%00',
    '/%',
    '/assets',
    '/nothing-here',
  ])('%s is not found', async (path) => {
    const { status, body } = await ask(path);
    expect(status).toBe(404);
    expect(body).not.toContain('secret');
  });

  it('a request that leads out of the folder in absolute form', async () => {
    const answer = await new Promise<string>((done) => {
      const socket = connect(serving.port, '127.0.0.1', () => {
        socket.write('GET http://localhost/../secret.txt HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\n\r\n');
      });
      let text = '';
      socket.on('data', (chunk) => (text += chunk.toString()));
      socket.on('close', () => done(text));
    });
    expect(answer).toMatch(/^HTTP\/1.1 404/);
  });

  it.each(['POST', 'PUT', 'DELETE'])('%s', async (method) => {
    expect((await ask('/', { method })).status).toBe(405);
  });

  it('another name for this machine', async () => {
    expect((await ask('/', { headers: { host: 'elsewhere.example:4173' } })).status).toBe(403);
    expect((await ask('/', { headers: { host: 'localhost:4173' } })).status).toBe(200);
  });

  it.each(['127.0.0.1', '[::1]'])('the name %s, which is sent on to the one name', async (name) => {
    const port = String(serving.port);
    const { status, headers } = await ask('/assets/index-abc.js', { headers: { host: `${name}:${port}` } });
    expect([status, headers['location']]).toEqual([308, `http://localhost:${port}/assets/index-abc.js`]);
    const astray = await ask('//elsewhere.example/', { headers: { host: `${name}:${port}` } });
    expect(astray.headers['location']).toBe(`http://localhost:${port}/`);
  });

  it('a page that is not built', async () => {
    await expect(serve({ root: join(root, 'nowhere'), port: 0 })).rejects.toThrow('not built');
  });
});

describe('a taken port', () => {
  it('stops with a sentence and moves to no other, and says when it is another Stowcall', async () => {
    await expect(serve({ root, port: serving.port })).rejects.toThrow(/taken by another Stowcall/);
    const other = createServer((_, response) => response.end('something else'));
    await new Promise<void>((done) => other.listen(0, '127.0.0.1', done));
    const { port } = other.address() as AddressInfo;
    await expect(serve({ root, port })).rejects.toThrow(/taken by another program.*new, empty one/);
    await new Promise((done) => other.close(done));
  });

  it('is known to be a kiosk or another program', async () => {
    expect(await isServed(serving.port)).toBe(true);
    const other = createServer((_, response) => response.end('something else'));
    await new Promise<void>((done) => other.listen(0, '127.0.0.1', done));
    const { port } = other.address() as AddressInfo;
    expect(await isServed(port)).toBe(false);
    await new Promise((done) => other.close(done));
    expect(await isServed(port)).toBe(false);
  });
});
