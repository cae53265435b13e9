/** One row of the table, how rows are run, and the few checks that they need: no test runner is in the page. */

/** The published test that asserts it, what goes wrong where it does not hold, and our check, which throws then. */
export type Row = readonly [source: string, wrong: string, check: () => void | Promise<void>];

export interface Failure {
  readonly source: string;
  readonly wrong: string;
  readonly why: string;
}

/** Rows of one list run one after the other, the lists side by side. */
export async function failures(lists: readonly (readonly Row[])[]): Promise<readonly Failure[]> {
  const told = await Promise.all(
    lists.map(async (rows) => {
      const found: Failure[] = [];
      for (const [source, wrong, check] of rows) {
        try {
          await within(10_000, Promise.resolve().then(check));
        } catch (error) {
          found.push({ source, wrong, why: String(error) });
        }
      }
      return found;
    }),
  );
  return told.flat();
}

/** A row that waits for what does not come must not hold up the others. */
async function within<T>(ms: number, work: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`nothing within ${ms} ms`)), ms);
  });
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
}

export function same(is: unknown, wanted: unknown): void {
  if (is === wanted) return;
  const [found, needed] = [show(is), show(wanted)];
  if (typeof is !== 'object' || typeof wanted !== 'object' || found !== needed) {
    throw new Error(`${found} instead of ${needed}`);
  }
}

export function holds(is: boolean, what: string): void {
  if (!is) throw new Error(`not so: ${what}`);
}

/** `name` is that of the exception. */
export function throws(name: string, work: () => unknown): void {
  try {
    work();
  } catch (error) {
    return sameError(error as Error, name);
  }
  throw new Error(`no ${name} was thrown`);
}

/** The promise may be of a frame that is gone, where nothing runs any more: it is looked at from here. */
export async function refuses(name: string, promise: Promise<unknown>): Promise<Error> {
  const error = await new Promise<Error>((resolve, reject) => {
    promise.then(() => reject(new Error(`it is not refused with ${name}`)), resolve);
  });
  sameError(error, name);
  return error;
}

function sameError(error: Error, name: string): void {
  if (error.name !== name) throw new Error(`${String(error)} instead of ${name}`);
}

function show(value: unknown): string {
  return typeof value === 'object' && value !== null ? JSON.stringify(value, tellUndefined) : String(value);
}

/** In a list it would look like null. */
function tellUndefined(_key: string, value: unknown): unknown {
  return value === undefined ? '(undefined)' : value;
}
