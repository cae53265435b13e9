import { defineConfig } from '@playwright/test';
import { findChromium, sandboxFlags } from './src/tools/chromium.mjs';

/** Fixed, so that the page's storage has one address; another program on it stops the run. Two runs need two ports. */
const PORT = Number(process.env['STOWCALL_E2E_PORT'] ?? 4199);
const json = process.env['STOWCALL_E2E_JSON'];

export default defineConfig({
  testDir: 'tests/e2e',
  testMatch: '**/*.spec.ts',
  // Two packs are spoken in real time at about half a core each; the third worker goes on with everything else meanwhile.
  workers: 3,
  fullyParallel: false,
  // A test that passes at the second try has failed.
  retries: 0,
  forbidOnly: true,
  timeout: 120_000,
  expect: { timeout: 15_000 },
  reporter: json === undefined ? 'list' : [['list'], ['json', { outputFile: json }]],
  use: {
    baseURL: `http://localhost:${PORT}/`,
    permissions: ['camera', 'microphone'],
    // A trace costs a third of the processor's time; STOWCALL_TRACE=1 keeps those of tests that fail.
    trace: process.env['STOWCALL_TRACE'] === undefined ? 'off' : 'retain-on-failure',
    launchOptions: {
      executablePath: findChromium() ?? 'chromium',
      args: [
        ...sandboxFlags(),
        '--autoplay-policy=no-user-gesture-required',
        '--disable-gpu',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
        '--no-first-run',
      ],
    },
  },
  // Packs kill their own browser: a trace of one that is gone cannot be ended, and once failed a pack that had passed.
  // What is spoken in real time comes first, so that nothing is left to wait for it at the end.
  projects: [
    { name: 'aloud', testMatch: '**/pack-aloud*.spec.ts', timeout: 15 * 60_000, use: { trace: 'off' } },
    {
      name: 'pack',
      testMatch: '**/pack*.spec.ts',
      testIgnore: '**/pack-aloud*.spec.ts',
      timeout: 15 * 60_000,
      use: { trace: 'off' },
    },
    { name: 'page', testIgnore: '**/pack*.spec.ts' },
  ],
  webServer: {
    command: 'node src/tools/serve.mjs',
    env: { PORT: String(PORT) },
    url: `http://localhost:${PORT}/`,
    reuseExistingServer: false,
    timeout: 20_000,
  },
});
