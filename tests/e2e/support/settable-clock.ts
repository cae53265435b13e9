/** The page's wall clock in the hands of a test; the steady clock goes on as it does, as it does when a computer sleeps. */
import type { BrowserContext, Page } from '@playwright/test';

/** Runs in the page before its own scripts. Sent as source, so it stands alone. */
function settableClock(): void {
  const RealDate = Date;
  const shifted = (): number => {
    const [was = 0, ms = 0, from = 0] = JSON.parse(sessionStorage.getItem('shift') ?? '[]') as number[];
    return RealDate.now() + (performance.now() >= from ? ms : was);
  };
  globalThis.Date = new Proxy(RealDate, {
    construct: (target, args: []) => (args.length === 0 ? new target(shifted()) : new target(...args)),
    get: (target, name) => (name === 'now' ? shifted : (Reflect.get(target, name) as unknown)),
  });
}

/** Puts the clock into the hands of the test, in every page of this browser; before its first page. */
export async function holdClock(context: BrowserContext): Promise<void> {
  // A compiler's helper for function names may be in it, and does not exist in the page.
  await context.addInitScript({ content: `globalThis.__name ??= (named) => named; (${settableClock.toString()})()` });
}

/** Sets the wall clock this many milliseconds off the true time: at once, or when so many more have gone by. */
export async function setClock(page: Page, ms: number, inMs = 0): Promise<void> {
  await page.evaluate(
    ([next, wait]) => {
      const [, before = 0] = JSON.parse(sessionStorage.getItem('shift') ?? '[]') as number[];
      // The steady clock of a page that is loaded anew begins anew, so a plain setting must hold from its first moment.
      const from = wait === 0 ? 0 : performance.now() + wait;
      sessionStorage.setItem('shift', JSON.stringify([before, next, from]));
    },
    [ms, inMs] as const,
  );
}
