/** How long a long journal takes to open, and one pack of it to read and prove, in a freshly started Chromium. */
import { withStoreBrowser } from './store-browser';
import type { OpenTimes } from './store-page';

export interface OpenFigures extends OpenTimes {
  readonly facts: number;
}

const FACTS = 200_000;

/** Fills a journal, starts the browser anew and measures, in milliseconds. Filling takes a minute or two. */
export function benchOpen(facts: number = FACTS): Promise<OpenFigures> {
  return withStoreBrowser(async (inPage) => {
    await inPage((page) => page.evaluate((n) => window.storeBench.fill(n), facts));
    const times = await inPage((page) => page.evaluate(() => window.storeBench.timeOpen()));
    const rounded = (ms: number): number => Math.round(ms * 10) / 10;
    const { open, read, proveFirst, prove, proveP95, audit } = times;
    const proofs = { proveFirst: rounded(proveFirst), prove: rounded(prove), proveP95: rounded(proveP95) };
    return { facts, open: rounded(open), read: rounded(read), ...proofs, audit: rounded(audit) };
  });
}
