/** A page made of one bundled module, served from this machine alone: where the real store meets a real browser. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { build } from 'vite';

export interface ServedPage {
  /** Address of the page; localhost, so that the browser counts it as secure and gives it storage and locks. */
  readonly url: string;
  close(): Promise<void>;
}

/** Bundles the module at `entry` (an absolute path) and serves it in an empty page on a free port. */
export async function servePage(entry: string): Promise<ServedPage> {
  const script = await bundle(entry);
  const server = createServer((request, response) => {
    const isScript = request.url === '/page.js';
    const type = isScript ? 'text/javascript' : 'text/html';
    response.writeHead(200, { 'content-type': `${type}; charset=utf-8`, 'cache-control': 'no-store' });
    response.end(isScript ? script : PAGE);
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://localhost:${port}/`,
    close: () =>
      new Promise((closed) => {
        server.close(() => closed());
        server.closeAllConnections();
      }),
  };
}

const PAGE =
  '<!doctype html><meta charset="utf-8"><title>ready soon</title><script type="module" src="/page.js"></script>';

async function bundle(entry: string): Promise<string> {
  const output = await build({
    configFile: false,
    logLevel: 'error',
    build: { write: false, minify: false, target: 'es2022', rollupOptions: { input: entry } },
  });
  const files = (Array.isArray(output) ? output : [output]).flatMap((one) => ('output' in one ? one.output : []));
  const [chunk, ...more] = files.filter((file) => file.type === 'chunk');
  if (chunk === undefined || more.length > 0) throw new Error(`${entry} was not bundled into one module`);
  return chunk.code;
}
