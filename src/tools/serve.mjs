/** Serves the built page to this machine alone, with the headers that keep it from talking to anybody else. */
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer, request } from 'node:http';
import { extname, join, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run, say, Stop } from './say.mjs';

/** @typedef {{ url: string, port: number, close: () => Promise<void> }} Serving */

export const PORT = 4173;

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
  '.webp': 'image/webp',
  '.woff2': 'font/woff2',
  '.yaml': 'text/yaml; charset=utf-8',
};

/** The loopback of IPv4 must be there; that of IPv6 is served too where the computer has it. */
const LOOPBACKS = ['127.0.0.1', '::1'];

/**
 * Serves `root/dist` at localhost. `port` 0 takes any free one; a taken one is refused: the journal belongs to its
 * address, and at another port it would seem empty.
 * @param {{ root: string, port?: number }} options
 * @returns {Promise<Serving>}
 */
export async function serve({ root, port = PORT }) {
  const folder = resolve(root, 'dist');
  if (!existsSync(join(folder, 'index.html'))) throw new Stop('The page is not built yet. Run: npm start');
  /** @type {import('node:http').Server[]} */
  const servers = [];
  let at = port;
  for (const host of LOOPBACKS) {
    const server = createServer((asked, response) => answer(folder, asked, response));
    const listening = await listen(server, at, host).catch(async (/** @type {unknown} */ error) => {
      await Promise.all(servers.map(shut));
      throw error;
    });
    if (!listening) continue;
    servers.push(server);
    const address = server.address();
    at = typeof address === 'object' && address !== null ? address.port : at;
  }
  const close = async () => void (await Promise.all(servers.map(shut)));
  return { url: `http://localhost:${at}/`, port: at, close };
}

/** @param {import('node:http').Server} server @returns {Promise<void>} */
function shut(server) {
  return new Promise((done) => {
    server.close(() => done());
    server.closeAllConnections();
  });
}

/**
 * False where this computer has no such address, which only the first must have.
 * @param {import('node:http').Server} server @param {number} port @param {string} host @returns {Promise<boolean>}
 */
function listen(server, port, host) {
  return new Promise((done, failed) => {
    server.once('error', (error) => {
      const code = 'code' in error ? error.code : '';
      if (host !== LOOPBACKS[0] && code !== 'EADDRINUSE') return done(false);
      if (code !== 'EADDRINUSE') return failed(error);
      void isServed(port).then((ours) => failed(new Stop(sayTaken(port, ours))));
    });
    server.listen(port, host, () => done(true));
  });
}

/** @param {number} port @param {boolean} ours */
function sayTaken(port, ours) {
  const by = ours ? 'another Stowcall. Use that one, or stop it' : 'another program. Stop that one';
  return (
    `Port ${port} is taken by ${by}, and start again. Records belong to their address: at another port the journal ` +
    'would be a new, empty one. Only a new table takes another port: PORT=4999 npm start'
  );
}

/**
 * @param {string} folder
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
function answer(folder, request, response) {
  for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
  // Another site's name that was pointed at this machine must not reach the page.
  const named = /^(.*?)(:\d+)?$/.exec(request.headers.host ?? '');
  const host = named?.[1] ?? '';
  if (!ONE_NAME.has(host)) return refuse(response, 403, 'Only this machine itself is served.');
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.setHeader('allow', 'GET, HEAD');
    return refuse(response, 405, 'This address can only be read.');
  }
  // Each name would be a journal and a key of its own in the browser: there is one.
  if (host !== 'localhost') {
    response.setHeader('location', `http://localhost${named?.[2] ?? ''}${pathOf(request.url ?? '/')}`);
    return refuse(response, 308, 'This page has one address, and it begins with localhost.');
  }
  const file = fileFor(folder, request.url ?? '/');
  if (file === null) return refuse(response, 404, 'There is nothing at this address.');
  send({ file, folder }, request, response);
}

/** The names of this machine that a browser may ask under. */
const ONE_NAME = new Set(['localhost', '127.0.0.1', '[::1]']);

/** The path alone, so that no request can send anybody to another place. @param {string} url */
function pathOf(url) {
  return /^\/[\w./?=&%-]*$/.test(url) && !url.startsWith('//') ? url : '/';
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
 * @param {{ file: string, folder: string }} what a file of the folder that is served
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
function send({ file, folder }, request, response) {
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
  const { url } = await serve({ root, port });
  say(`Stowcall is at ${url}`);
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === resolve(process.argv[1])) {
  await run(() => serveForGood(resolve(fileURLToPath(import.meta.url), '../../..')));
}
