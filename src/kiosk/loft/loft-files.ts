/** Fetches the loft's files from the page's own origin; checking them is the loft folder's work. */
import { FILES_MAX, longestFile } from '../../loft/file-limits';
import { ok, refused, type Result } from '../../domain/result';
import { kindOfFile } from '../../loft/load-loft';

export interface LoftFile {
  readonly path: string;
  readonly text: string;
}

/** A server beside the page answers in milliseconds; nobody at the table waits longer than this for one that does not. */
const LIMIT_MS = 4_000;

/** All files that `loft/index.json` lists, as text. Works from the service worker without a network. */
export async function fetchLoftFiles(base: string): Promise<Result<readonly LoftFile[], 'loft-unreachable'>> {
  try {
    const index: unknown = await (await fetchChecked(`${base}loft/index.json`)).json();
    if (!Array.isArray(index) || index.length > FILES_MAX || !index.every((path) => typeof path === 'string')) {
      return refused('loft-unreachable', 'The list of loft files cannot be read. Start the kiosk again.');
    }
    const paths = index as readonly string[];
    const secret = paths.find((path) => kindOfFile(path) === 'badges');
    if (secret !== undefined) {
      const what = `${secret} is served to this page: whoever opens it can print every badge of the loft.`;
      return refused('loft-unreachable', `${what} Take it out of what is served, and draw new badges.`);
    }
    const files = await Promise.all(
      paths.map(async (path) => ({
        path,
        text: await (await fetchChecked(`${base}loft/${path.split('/').map(encodeURIComponent).join('/')}`)).text(),
      })),
    );
    const long = files.find(({ path, text }) => text.length > longestFile(path));
    if (long !== undefined)
      return refused('loft-unreachable', `${long.path} is too long for a loft file. Ask the lead.`);
    return ok(files);
  } catch (error) {
    return refused('loft-unreachable', `The loft files cannot be loaded (${String(error)}). Start the kiosk again.`);
  }
}

async function fetchChecked(url: string): Promise<Response> {
  // A people file from a cache could be older than a revocation.
  const response = await fetch(url, { cache: 'no-store', signal: AbortSignal.timeout(LIMIT_MS) });
  if (!response.ok) throw new Error(`${url}: ${response.status}`);
  return response;
}
