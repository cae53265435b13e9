import { defineConfig } from 'vitest/config';

// Pages are proved by Playwright (`tests/e2e`); everything here runs in Node.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    exclude: ['tests/e2e/**'],
    environment: 'node',
    testTimeout: 30_000,
  },
});
