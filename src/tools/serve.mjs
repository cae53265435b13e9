/** Serves the built page to this machine alone, with the headers that keep it from talking to anybody else. */
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer, request } from 'node:http';
import { extname, join, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run, say, Stop } from './say.mjs';

/** @typedef {{ url: string, port: number, close: () => Promise<void> }} Serving */

export const PORT = 4173;
/** How many ports above a taken one are tried. */
const PORTS_TRIED = 20;

const CSP = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "connect-src 'self'",
  "img-src 'self' blob: data:",
  "style-src 'self'",
  "font-src 'self'",
  "media-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const OFF = [
  'accelerometer',
  'browsing-topics',
  'clipboard-read',
  'display-capture',
  'encrypted-media',
  'geolocation',
  'gyroscope',
  'hid',
  'idle-detection',
  'local-fonts',
  'magnetometer',
  'midi',
  'payment',
  'picture-in-picture',
  'publickey-credentials-get',
  'serial',
  'usb',
  'xr-spatial-tracking',
];
const OWN = ['autoplay', 'camera', 'fullscreen', 'microphone', 'screen-wake-lock'];

/** On every answer, also on errors. */
export const HEADERS = {
  'content-security-policy': CSP,
  'permissions-policy': [...OWN.map((name) => `${name}=(self)`), ...OFF.map((name) => `${name}=()`)].join(', '),
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
  server: 'stowcall',
};

/** @type {Readonly<Record<string, string>>} */
const TYPES = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.jpg': 'image/jpeg',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.woff2': 'font/woff2',
  '.yaml': 'text/yaml; charset=utf-8',
};

/**
 * Serves `root/dist`. `port` 0 takes any free one; a taken one is refused unless `orNext` is set.
 * @param {{ root: string, port?: number, orNext?: boolean }} options
 * @returns {Promise<Serving>}
 */
export async function serve({ root, port = PORT, orNext = false }) {
  const folder = resolve(root, 'dist');
  if (!existsSync(join(folder, 'index.html'))) throw new Stop('The page is not built yet. Run: npm start');
  for (let at = port; ; at += 1) {
    const server = createServer((asked, response) => answer(folder, asked, response));
    const taken = await listen(server, at);
    if (taken === null) return serving(server);
    if (!orNext || at >= port + PORTS_TRIED) throw taken;
  }
}

/** @param {import('node:http').Server} server @returns {Serving} */
function serving(server) {
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  const close = () =>
    new Promise((/** @type {(value: void) => void} */ done) => {
      server.close(() => done());
      server.closeAllConnections();
    });
  return { url: `http://localhost:${port}/`, port, close };
}

/** @param {import('node:http').Server} server @param {number} port @returns {Promise<Stop | null>} */
function listen(server, port) {
  return new Promise((done, failed) => {
    server.once('error', (error) => {
      if (!('code' in error) || error.code !== 'EADDRINUSE') return failed(error);
      done(
        new Stop(`Port ${port} is taken by another program. Stop that one, or name another port: PORT=4999 npm start`),
      );
    });
    server.listen(port, '127.0.0.1', () => done(null));
  });
}

/**
 * @param {string} folder
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
function answer(folder, request, response) {
  for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
  // Another site's name that was pointed at this machine must not reach the page.
  const host = (request.headers.host ?? '').replace(/:\d+$/, '');
  if (!['localhost', '127.0.0.1'].includes(host)) return refuse(response, 403, 'Only this machine itself is served.');
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.setHeader('allow', 'GET, HEAD');
    return refuse(response, 405, 'This address can only be read.');
  }
  const file = fileFor(folder, request.url ?? '/');
  if (file === null) return refuse(response, 404, 'There is nothing at this address.');
  send(file, folder, request, response);
}

/**
 * The file for an address, or null: also for every address that leads out of the folder.
 * @param {string} folder @param {string} url
 */
function fileFor(folder, url) {
  let path;
  try {
    path = decodeURIComponent((url.split(/[?#]/)[0] ?? '/').replace(/\/$/, '/index.html'));
  } catch {
    return null;
  }
  if (path.includes('\0') || path.includes('\\') || path.split('/').includes('..')) return null;
  const file = resolve(folder, `.${path}`);
  if (!file.startsWith(folder + sep)) return null;
  return statSync(file, { throwIfNoEntry: false })?.isFile() ? file : null;
}

/**
 * @param {string} file
 * @param {string} folder
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
function send(file, folder, request, response) {
  const { size, mtimeMs } = statSync(file);
  const etag = `"${size.toString(16)}-${Math.round(mtimeMs).toString(16)}"`;
  // The names of these files carry the hash of their content.
  const lasting = file.startsWith(join(folder, 'assets') + sep);
  response.setHeader('cache-control', lasting ? 'public, max-age=31536000, immutable' : 'no-cache');
  response.setHeader('etag', etag);
  if (request.headers['if-none-match'] === etag) {
    response.statusCode = 304;
    return response.end();
  }
  response.setHeader('content-type', TYPES[extname(file)] ?? 'application/octet-stream');
  response.setHeader('content-length', size);
  if (request.method === 'HEAD') return response.end();
  createReadStream(file)
    .on('error', () => response.destroy())
    .pipe(response);
}

/** @param {import('node:http').ServerResponse} response @param {number} status @param {string} sentence */
function refuse(response, status, sentence) {
  response.statusCode = status;
  response.setHeader('content-type', 'text/plain; charset=utf-8');
  response.end(`${sentence}\n`);
}

/** True when a kiosk page is already served at this port. @param {number} port @returns {Promise<boolean>} */
export function isServed(port) {
  return new Promise((done) => {
    const asking = request({ host: '127.0.0.1', port, method: 'HEAD', timeout: 2000 }, (response) => {
      response.resume();
      done(response.headers.server === HEADERS.server);
    });
    asking.on('timeout', () => asking.destroy());
    asking.on('error', () => done(false));
    asking.end();
  });
}

/** The port to use: `PORT`, or the usual one. */
export function portWanted() {
  const named = process.env['PORT'];
  if (named === undefined || named === '') return PORT;
  const port = Number(named);
  if (Number.isInteger(port) && port >= 0 && port < 65_536) return port;
  throw new Stop(`PORT is "${named}", which is no port. Name a number from 1 to 65535.`);
}

/** Serves until the program is ended. @param {string} root */
export async function serveForGood(root) {
  const port = portWanted();
  if (port !== 0 && (await isServed(port))) return say(`Stowcall is already running at http://localhost:${port}/`);
  const { url, port: got } = await serve({ root, port, orNext: true });
  if (port !== 0 && got !== port) {
    say(`Port ${port} is taken by another program. Packs belong to their address: those begun at port ${port} are not`);
    say('shown here. Stop the other program and start again to see them.');
  }
  say(`Stowcall is at ${url}`);
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === resolve(process.argv[1])) {
  await run(() => serveForGood(resolve(fileURLToPath(import.meta.url), '../../..')));
}
