/** Stands in for `vitest` in the bundles of a mutation run: hands on what `quick-tests.mjs` has put into the global scope. */
export const { beforeAll, describe, expect, it, vi } = /** @type {any} */ (globalThis).quickVitest;
