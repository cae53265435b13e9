/** Opens the kiosk with the stub of microphone and camera in place before its own scripts run. */
import type { BrowserContext, Page } from '@playwright/test';
import { installTableStub } from './table-stub';

export interface StartOptions {
  /** Devices whose permission is denied. */
  readonly deny?: readonly ('audio' | 'video')[];
  readonly path?: string;
  /** The loft's speaking rate instead of the demo's; a loft may set 0.5 to 2. */
  readonly speakingRate?: number;
}

/** Any error of the page fails the test that asks for `errorsOf`. */
const errors = new WeakMap<Page, string[]>();

export async function startPage(context: BrowserContext, baseURL: string, options: StartOptions = {}): Promise<Page> {
  const page = await context.newPage();
  const seen: string[] = [];
  errors.set(page, seen);
  page.on('pageerror', (error) => seen.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') seen.push(message.text());
  });
  // No name, serial, picture or sound leaves the machine: a request to another origin is an error of the page.
  page.on('request', (request) => {
    const { protocol, origin } = new URL(request.url());
    if (protocol.startsWith('http') && origin !== new URL(baseURL).origin) seen.push(`asked of ${request.url()}`);
  });
  // Sent as source: a compiler's helper for function names may be in it, and does not exist in the page.
  const stub = `globalThis.__name ??= (named) => named; (${installTableStub.toString()})`;
  await page.addInitScript({ content: `${stub}(${JSON.stringify({ deny: options.deny ?? [] })})` });
  // No loudspeaker is heard by the stub of the microphone.
  await page.addInitScript(changeLoft, options.speakingRate ?? null);
  await page.goto(new URL(options.path ?? '/', baseURL).href);
  return page;
}

/** Page errors and error messages on the console so far. */
export function errorsOf(page: Page): readonly string[] {
  return errors.get(page) ?? [];
}

/** Changes lines of the loft's settings on their way into the page. Sent as source, so it stands alone. */
function changeLoft(rate: number | null): void {
  const original = window.fetch;
  window.fetch = async (input, init) => {
    const response = await original.call(window, input, init);
    if (!String(input).endsWith('loft/loft.yaml')) return response;
    const text = await response.text();
    const silent = text.replace(/^loudspeaker: .*$/m, 'loudspeaker: headset');
    return new Response(rate === null ? silent : silent.replace(/^( *speakingRate:) .*$/m, `$1 ${String(rate)}`));
  };
}
