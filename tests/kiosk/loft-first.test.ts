/** `public/loft-first.js` with a server, copies and a fetch event of the test's own: what counts when the server is silent. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';

const SOURCE = readFileSync(join(import.meta.dirname, '../../public/loft-first.js'), 'utf8');
const LOFT = 'http://localhost:4173/loft/people.yaml';

interface Rig {
  server: () => Promise<Response>;
  readonly copies: Map<string, Response>;
  readonly precached: Map<string, Response>;
  /** What the page gets; null where the worker leaves the request alone. */
  ask(url: string, method?: string): Promise<string | null>;
}

function rigOf(): Rig {
  const copies = new Map<string, Response>();
  const precached = new Map<string, Response>();
  let listener: ((event: unknown) => void) | null = null;
  const of = (map: Map<string, Response>, { url }: Request): Promise<Response | undefined> =>
    Promise.resolve(map.get(url)?.clone());
  const copy = {
    match: (request: Request) => of(copies, request),
    put: (request: Request, answer: Response) => Promise.resolve(void copies.set(request.url, answer)),
  };
  const rig: Rig = {
    server: () => Promise.reject(new Error('no server')),
    copies,
    precached,
    async ask(url, method = 'GET') {
      let answer: Promise<Response> | null = null;
      const respondWith = (given: Promise<Response>): void => void (answer = given);
      listener?.({ request: new Request(url, { method }), respondWith, stopImmediatePropagation: () => undefined });
      const given = answer as Promise<Response> | null;
      return given === null ? null : (await given).text();
    },
  };
  runInNewContext(SOURCE, {
    self: {
      registration: { scope: 'http://localhost:4173/' },
      addEventListener: (_: string, take: (event: unknown) => void) => void (listener = take),
    },
    fetch: () => rig.server(),
    caches: { open: () => Promise.resolve(copy), match: (request: Request) => of(precached, request) },
    AbortSignal,
    Response,
    URL,
  });
  return rig;
}

describe('the loft’s files', () => {
  it('come from the server, although a copy is there', async () => {
    const rig = rigOf();
    rig.copies.set(LOFT, new Response('before'));
    rig.server = () => Promise.resolve(new Response('revoked'));
    expect(await rig.ask(LOFT)).toBe('revoked');
  });

  it('come from the last copy that the server gave where it is silent, and from the page’s own before the first', async () => {
    const rig = rigOf();
    rig.precached.set(LOFT, new Response('with the page'));
    expect(await rig.ask(LOFT)).toBe('with the page');
    rig.server = () => Promise.resolve(new Response('revoked'));
    await rig.ask(LOFT);
    rig.server = () => Promise.reject(new Error('no server'));
    expect(await rig.ask(LOFT)).toBe('revoked');
  });

  it('that the server refuses are refused, and change no copy', async () => {
    const rig = rigOf();
    rig.copies.set(LOFT, new Response('before'));
    rig.server = () => Promise.resolve(new Response('gone', { status: 404 }));
    expect(await rig.ask(LOFT)).toBe('gone');
    rig.server = () => Promise.reject(new Error('no server'));
    expect(await rig.ask(LOFT)).toBe('before');
  });

  it('are all that it answers for', async () => {
    const rig = rigOf();
    expect(await rig.ask('http://localhost:4173/index.html')).toBeNull();
    expect(await rig.ask(LOFT, 'POST')).toBeNull();
  });
});
