/**
 * A test runner for Stryker that starts nothing anew: each test file is bundled once, and loaded afresh into this process
 * for each mutant, which takes milliseconds where a start of vitest takes most of a second.
 */
import { createRequire } from 'node:module';
import { dirname, relative, resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { Script } from 'node:vm';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import {
  determineHitLimitReached,
  DryRunStatus,
  TestStatus,
  toMutantRunResult,
} from '@stryker-mutator/api/test-runner';
import { build } from 'vite';
import { declaredBy } from './quick-tests.mjs';

/**
 * @typedef {import('./quick-tests.mjs').Test} Test
 * @typedef {(require: NodeJS.Require, module: { exports: object }, exports: object) => void} Start
 * @typedef {{ file: string, start: Start, require: NodeJS.Require }} Bundle
 * @typedef {import('@stryker-mutator/api/test-runner').TestResult} TestResult
 * @typedef {import('@stryker-mutator/api/test-runner').DryRunResult} DryRunResult
 * @typedef {import('@stryker-mutator/api/test-runner').MutantRunOptions} MutantRunOptions
 * @typedef {import('@stryker-mutator/api/test-runner').MutantRunResult} MutantRunResult
 * @typedef {import('@stryker-mutator/api/core').MutantCoverage} MutantCoverage
 * @typedef {{ activeMutant?: string | undefined, currentTestId?: string | undefined, hitCount?: number, hitLimit?: number | undefined, mutantCoverage?: MutantCoverage, isCounting?: boolean }} Instrumented
 */

// xstate makes and drops an error at each start of a machine without input; without a stack that costs next to nothing.
Error.stackTraceLimit = 0;

/** The instrumented code keeps this very object, so it is changed and never replaced. @type {Instrumented} */
const stryker = {};
Object.assign(globalThis, { __stryker__: stryker });

/** What Stryker calls at every place that it could break, to see which test comes by; it need not when one is broken. */
const COUNTS = /function (stryCov_\w+(?:\$\d+)?)\(\) \{/g;

/** One script of a test file and all of ours that it uses; packages stay outside. @param {string} file @returns {Promise<Bundle>} */
async function bundle(file) {
  const output = await build({
    configFile: false,
    logLevel: 'error',
    resolve: { alias: { vitest: resolve(import.meta.dirname, 'quick-vitest.mjs') } },
    plugins: [
      {
        name: 'place-of-a-file',
        transform: (/** @type {string} */ code, /** @type {string} */ id) =>
          code.replaceAll('import.meta.dirname', JSON.stringify(dirname(id))),
      },
    ],
    build: { ssr: true, write: false, minify: false, rollupOptions: { input: file, output: { format: 'cjs' } } },
  });
  if (Array.isArray(output) || !('output' in output)) throw new Error(`${file} was not bundled into one script`);
  const code = output.output[0].code.replace(
    COUNTS,
    '$& if (!globalThis.__stryker__.isCounting) return void ($1 = () => undefined);',
  );
  const script = new Script(`(function (require, module, exports) {${code}\n})`, { filename: file });
  return { file: relative(process.cwd(), file), start: script.runInThisContext(), require: createRequire(file) };
}

/** Loads a test file afresh. @param {Bundle} bundled @returns {Map<string, Test>} */
function load({ file, start, require }) {
  const module = { exports: {} };
  const tests = declaredBy(file, () => start(require, module, module.exports));
  return new Map(tests.map((test) => [test.id, test]));
}

/** A quick test that noticed one of the last mutants is asked first: neighbours are noticed by the same. */
const RECENT = 40;
const QUICK_MS = 100;

export class QuickRunner {
  static inject = /** @type {const} */ ([]);
  /** @type {Map<string, Bundle>} */
  bundles = new Map();
  /** Milliseconds of each test in the first run, loading its file included. @type {Map<string, number>} */
  times = new Map();
  /** Number of the last mutant that each test noticed. @type {Map<string, number>} */
  noticed = new Map();
  mutants = 0;

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    const files = (process.env.STOWCALL_MUTATION_TESTS ?? '').split(',');
    const all = await Promise.all(files.map((file) => bundle(resolve(file))));
    this.bundles = new Map(all.map((one) => [one.file, one]));
    // A process that takes the place of another one makes no first run, and must know all tests nevertheless.
    for (const bundled of all) for (const id of load(bundled).keys()) this.times.set(id, 0);
  }

  /** @returns {Promise<DryRunResult>} */
  async dryRun() {
    Object.assign(stryker, { activeMutant: undefined, isCounting: true });
    const tests = [];
    for (const bundled of this.bundles.values()) {
      const done = new Set();
      const began = performance.now();
      const loaded = load(bundled);
      const loading = performance.now() - began;
      for (const test of loaded.values()) {
        stryker.currentTestId = test.id;
        const result = await runTest(test, done);
        stryker.currentTestId = undefined;
        tests.push(result);
        this.times.set(test.id, loading + result.timeSpentMs);
      }
    }
    stryker.isCounting = false;
    const mutantCoverage = stryker.mutantCoverage ?? { static: {}, perTest: {} };
    return { status: DryRunStatus.Complete, tests, mutantCoverage };
  }

  /** @param {readonly string[]} ids */
  inOrder(ids) {
    const recent = (/** @type {string} */ id) => Math.max(this.noticed.get(id) ?? 0, this.mutants - RECENT);
    return ids.toSorted((a, b) => recent(b) - recent(a) || (this.times.get(a) ?? 0) - (this.times.get(b) ?? 0));
  }

  /** @param {MutantRunOptions} options @returns {Promise<MutantRunResult>} */
  async mutantRun({ activeMutant, testFilter, hitLimit, mutantActivation, disableBail }) {
    this.mutants += 1;
    const whileLoading = mutantActivation === 'static' ? activeMutant.id : undefined;
    Object.assign(stryker, { hitCount: 0, hitLimit });
    const loaded = new Map();
    const tests = [];
    for (const id of this.inOrder(testFilter ?? [...this.times.keys()])) {
      const file = id.split('#')[0] ?? '';
      try {
        if (!loaded.has(file)) loaded.set(file, this.loadWith(file, whileLoading));
      } catch (error) {
        tests.push(failed({ id, name: id, timeSpentMs: 0 }, error));
        break;
      }
      const { known, done } = loaded.get(file);
      stryker.activeMutant = activeMutant.id;
      // A row that the mutant has taken from a table is not there to notice anything.
      if (!known.has(id)) continue;
      const result = await runTest(known.get(id), done);
      tests.push(result);
      if (result.status !== TestStatus.Failed) continue;
      if ((this.times.get(id) ?? 0) < QUICK_MS) this.noticed.set(id, this.mutants);
      if (!disableBail) break;
    }
    const limited = determineHitLimitReached(stryker.hitCount, hitLimit);
    return toMutantRunResult(limited ?? { status: DryRunStatus.Complete, tests });
  }

  /** @param {string} file @param {string | undefined} mutant broken while the file is loaded; none where undefined */
  loadWith(file, mutant) {
    const bundled = this.bundles.get(file);
    if (bundled === undefined) throw new Error(`${file} is none of the tests`);
    stryker.activeMutant = mutant;
    return { known: load(bundled), done: new Set() };
  }
}

/** @param {{ id: string, name: string, timeSpentMs: number }} told @param {unknown} error @returns {TestResult} */
function failed(told, error) {
  return { ...told, status: TestStatus.Failed, failureMessage: String(error) };
}

/** @param {Test} test @param {Set<unknown>} done what has been run already of what goes before @returns {Promise<TestResult>} */
async function runTest({ id, name, body, before }, done) {
  const began = performance.now();
  const told = () => ({ id, name, fileName: resolve(id.split('#')[0] ?? ''), timeSpentMs: performance.now() - began });
  try {
    for (const one of before) {
      if (!done.has(one)) await one();
      done.add(one);
    }
    await body();
    return { ...told(), status: TestStatus.Success };
  } catch (error) {
    return failed(told(), error);
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.TestRunner, 'quick', QuickRunner)];
