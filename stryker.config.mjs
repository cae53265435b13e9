/** Mutation runs, started by `npm run mutate` (src/tools/mutate.mjs): one place is broken at a time; a test must notice. */
const {
  STOWCALL_MUTATE: places = 'src/domain/**/*.ts',
  STOWCALL_MUTATION_NAME: name = 'all',
  STOWCALL_MUTATION_RUNNER: testRunner = 'vitest',
} = process.env;

/** @type {import('@stryker-mutator/api/core').PartialStrykerOptions} */
export default {
  testRunner,
  plugins: ['@stryker-mutator/vitest-runner', './tests/mutation/quick-runner.mjs'],
  vitest: { configFile: 'vitest.mutation.config.ts' },
  mutate: places.split(','),
  coverageAnalysis: 'perTest',
  // Tables and regular expressions at the top of a module matter as much as code: they are broken too.
  ignoreStatic: false,
  concurrency: 1,
  // Each mutant leaves a whole set of modules behind: room for the young keeps the collector out of the way.
  testRunnerNodeArgs: ['--max-semi-space-size=64'],
  // A busy machine is slow, not wrong; what goes round in circles is found by counting.
  timeoutMS: 20_000,
  reporters: ['clear-text', 'json', 'progress-append-only'],
  clearTextReporter: { logTests: false, allowColor: false },
  jsonReporter: { fileName: `.cache/mutation/${name}.json` },
  // Inside the project, so that a copy finds node_modules above itself, also where that is a link.
  tempDirName: `.cache/stryker-${name}`,
  symlinkNodeModules: false,
  ignorePatterns: ['/node_modules', '/.stowcall', '/.cache', '/dist', '/public', '/tests/audio', '/tests/pictures'],
};
