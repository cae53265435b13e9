import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** Nothing there is stubbed, and no clock or device is touched: these need no fresh modules for each file. */
const PURE = [
  'domain',
  'packing',
  'loft',
  'record/chain',
  'record/verify',
  'scan/symbology',
  'speech/grammar',
  'voice/phrases',
].map((folder) => `tests/${folder}/**/*.test.ts`);

// Pages are proved by Playwright (`tests/e2e`); everything here runs in Node.
export default defineConfig({
  test: {
    environment: 'node',
    // When the browser's tests beside them are done, no core stands idle.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    // A busy machine is slow, not wrong: the limit is there for what never ends.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    projects: [
      { extends: true, test: { name: 'pure', include: PURE, pool: 'threads', isolate: false } },
      {
        extends: true,
        test: { name: 'parts', include: ['tests/**/*.test.{ts,tsx}'], exclude: ['tests/e2e/**', ...PURE] },
      },
    ],
  },
});
