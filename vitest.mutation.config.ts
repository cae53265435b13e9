import { defineConfig } from 'vitest/config';

/** The tests that a mutation run asks: those beside the broken folder, named by `npm run mutate`. */
const tests = process.env.STOWCALL_MUTATION_TESTS?.split(',') ?? ['tests/domain/**/*.test.ts'];

export default defineConfig({ test: { include: tests, environment: 'node' } });
