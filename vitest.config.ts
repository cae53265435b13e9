import { defineConfig } from 'vitest/config';

// Pages are proved by Playwright (`tests/e2e`); everything here runs in Node.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    exclude: ['tests/e2e/**'],
    environment: 'node',
    // A busy machine is slow, not wrong: the limit is there for what never ends.
    testTimeout: 180_000,
    hookTimeout: 180_000,
  },
});
