/** Assertions that need no test runner, so that they hold in Node and inside a page of a real browser. */
import type { Result } from '../../src/domain/result';
import type { LedgerFailure } from '../../src/record/ledger';

/** What a ledger gave. Throws where it refused. */
export function value<T>(result: Result<T, LedgerFailure>): T {
  if (!result.ok) throw new Error(`refused: ${result.reason}: ${result.detail}`);
  return result.value;
}

/** Throws unless it was refused for this reason, in a sentence. */
export function reason(result: Result<unknown, LedgerFailure>, expected: LedgerFailure): void {
  if (result.ok) throw new Error(`accepted, but "${expected}" was expected`);
  same(result.reason, expected);
  if (!/^[A-Z].+[.)]$/.test(result.detail)) throw new Error(`no sentence: ${result.detail}`);
}

/** Equality of plain values: the keys' order does not matter, everything else does. */
export function same(actual: unknown, expected: unknown): void {
  const [a, b] = [spell(actual), spell(expected)];
  if (a !== b) throw new Error(`expected ${b}, got ${a}`);
}

function spell(given: unknown): string {
  return JSON.stringify(given, (_, item: unknown) =>
    typeof item === 'object' && item !== null && !Array.isArray(item)
      ? Object.fromEntries(Object.entries(item).sort(([a], [b]) => (a < b ? -1 : 1)))
      : item,
  );
}

/** Throws unless the promise rejects. */
export async function rejects(promise: Promise<unknown>): Promise<void> {
  const settled = await promise.then(
    () => 'resolved',
    () => 'rejected',
  );
  same(settled, 'rejected');
}
