/**
 * Runs a bench that needs both label readers in Node: `node tests/bench/run.mjs MODULE ARGS...` calls the module's
 * `run(args)`. Node itself cannot load @zxing/library's modules by name; Vite, which builds the page, can.
 */
import { resolve } from 'node:path';
import { runnerImport } from 'vite';

const [file = '', ...args] = process.argv.slice(2);
const { module } = await runnerImport(resolve(file), {
  configFile: false,
  logLevel: 'error',
  environments: { inline: { resolve: { mainFields: ['module'], noExternal: ['@zxing/library'] } } },
});
const { run } = /** @type {{ run: (args: readonly string[]) => Promise<number> }} */ (module);
process.exitCode = await run(args);
