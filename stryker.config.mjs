/** Mutation runs of the pure folders: `npm run mutate -- src/domain`. Guards are broken one at a time; a test must notice. */
const folders = process.env.STOWCALL_MUTATE?.split(',') ?? ['src/domain'];

/** @type {import('@stryker-mutator/api/core').PartialStrykerOptions} */
export default {
  testRunner: 'vitest',
  vitest: { configFile: 'vitest.mutation.config.ts' },
  mutate: folders.map((folder) => `${folder}/**/*.ts`),
  coverageAnalysis: 'perTest',
  concurrency: 1,
  reporters: ['clear-text', 'json', 'progress-append-only'],
  tempDirName: '.cache/stryker',
  jsonReporter: { fileName: '.cache/mutation.json' },
};
