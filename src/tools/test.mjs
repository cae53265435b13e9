/** `npm test`: makes sure of everything, runs every check and every test, and ends with one line that counts them. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureChromium, ensureDependencies, ensureModel, ensureNode } from './ensure.mjs';
import { run, say } from './say.mjs';

/**
 * @typedef {{ passed: number, failed: number, skipped: number }} Tally
 * @typedef {{ env?: string, flag?: string, read: (file: string) => Tally }} Report where to write, told by one of both
 * @typedef {{ name: string, command: readonly string[], report?: Report, maySkip?: boolean }} Step
 * @typedef {{ root: string, scratch: string }} Place the project, and a folder for reports
 */

/** Programs of the installed packages, run without a shell. @param {string} file */
const packaged = (file) => [process.execPath, join('node_modules', file)];
const tsc = packaged('typescript/bin/tsc');

/** Each of these counts as one test. @type {readonly Step[]} */
const CHECKS = [
  { name: 'types', command: [...tsc, '-p', 'tsconfig.json'] },
  { name: 'types of the pure folders', command: [...tsc, '-p', 'tsconfig.pure.json'] },
  { name: 'types of the workers', command: [...tsc, '-p', 'tsconfig.worker.json'] },
  { name: 'types of the grammar package', command: [...tsc, '-p', 'src/speech/grammar/tsconfig.json'] },
  ...['', '.core', '.worker', '.worklet', '.node'].map((part) => ({
    name: `types of the speech package${part.replace('.', ': ')}`,
    command: [...tsc, '-p', `src/speech/web-speech/tsconfig${part}.json`],
  })),
  { name: 'lint', command: [...packaged('eslint/bin/eslint.js'), '.'] },
  {
    name: 'arrows between folders',
    command: [
      ...packaged('dependency-cruiser/bin/dependency-cruise.mjs'),
      'src',
      '--config',
      '.dependency-cruiser.cjs',
    ],
  },
];

/** What the page carries, and what it is built and tested with. @type {readonly Step[]} */
const AUDITS = [
  { name: 'audit of what the page carries', args: ['--omit=dev'] },
  { name: 'audit of all dependencies', args: [] },
].map(({ name, args }) => ({
  name,
  command: [process.execPath, 'src/tools/audit.mjs', ...args],
  report: { env: 'STOWCALL_AUDIT_JSON', read: readAudit },
  // A registry without an audit answer is no reason to fail, and none to count as passed.
  maySkip: true,
}));

/** @type {Step} */
const UNIT = {
  name: 'unit tests',
  command: [...packaged('vitest/vitest.mjs'), 'run', '--reporter=default', '--reporter=json'],
  report: { flag: '--outputFile.json', read: readUnit },
};

/** @type {readonly Step[]} */
const END_TO_END = [
  { name: 'build', command: [...packaged('vite/bin/vite.js'), 'build', '--logLevel', 'warn'] },
  {
    name: 'tests in the browser',
    command: [...packaged('@playwright/test/cli.js'), 'test'],
    report: { env: 'STOWCALL_E2E_JSON', read: readEndToEnd },
  },
];

/** Vitest's JSON report; a file that could not even be loaded counts as one failure. @param {string} file @returns {Tally} */
export function readUnit(file) {
  const report = JSON.parse(readFileSync(file, 'utf8'));
  /** @type {readonly { status: string, assertionResults: readonly unknown[] }[]} */
  const files = report.testResults;
  const unloaded = files.filter(({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0);
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + unloaded.length,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

/** Playwright's JSON report; errors outside of tests count as failures. @param {string} file @returns {Tally} */
export function readEndToEnd(file) {
  const { stats, errors } = JSON.parse(readFileSync(file, 'utf8'));
  return { passed: stats.expected, failed: stats.unexpected + stats.flaky + errors.length, skipped: stats.skipped };
}

/** The audit's judgement counts as one test. @param {string} file @returns {Tally} */
export function readAudit(file) {
  const { outcome } = JSON.parse(readFileSync(file, 'utf8'));
  return {
    passed: Number(outcome === 'passed'),
    failed: Number(outcome === 'failed'),
    skipped: Number(outcome === 'skipped'),
  };
}

/**
 * Runs one step and counts it. A step that ends badly has at least one failure, whatever its report says, and so has
 * one that reports no test at all, or only skipped ones where it may not skip.
 * @param {Step} step @param {Place} place
 * @param {(text: string) => void} print gets what the step prints, as it comes
 * @returns {Promise<Tally>}
 */
export async function runStep({ name, command, report, maySkip = false }, { root, scratch }, print) {
  print(`\n== ${name}\n`);
  const file = join(scratch, `${name.replaceAll(' ', '-')}.json`);
  const [program = '', ...rest] = command;
  const args = report?.flag === undefined ? rest : [...rest, `${report.flag}=${file}`];
  const env = report?.env === undefined ? process.env : { ...process.env, [report.env]: file };
  const child = spawn(program, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'], env });
  const good = (await statusOf(child, print)) === 0;
  if (report === undefined) return { passed: good ? 1 : 0, failed: good ? 0 : 1, skipped: 0 };
  const tally = existsSync(file) ? report.read(file) : { passed: 0, failed: 1, skipped: 0 };
  const nothing = tally.passed === 0 && !(maySkip && tally.skipped > 0);
  if (tally.failed === 0 && (!good || nothing)) tally.failed = 1;
  return tally;
}

/**
 * Exit code of a program; null where it did not start or was ended.
 * @param {import('node:child_process').ChildProcessByStdio<null, import('node:stream').Readable, import('node:stream').Readable>} child
 * @param {(text: string) => void} print @returns {Promise<number | null>}
 */
function statusOf(child, print) {
  for (const stream of [child.stdout, child.stderr]) stream.setEncoding('utf8').on('data', print);
  return new Promise((resolve) => {
    child.on('error', (error) => {
      print(`${error.message}\n`);
      resolve(null);
    });
    child.on('close', resolve);
  });
}

/**
 * What runs side by side: each lane is a list of steps of which each waits for the one before. The browser's tests
 * mostly wait for sound, so that the checks and unit tests beside them cost hardly any time. `--unit` or `--e2e` alone
 * is one lane.
 * @param {readonly string[]} args @returns {readonly (readonly Step[])[]}
 */
export function lanesFor(args) {
  const unit = args.includes('--unit') || !args.includes('--e2e');
  const browser = args.includes('--e2e') || !args.includes('--unit');
  return [...(browser ? [END_TO_END] : []), ...(unit ? [[...CHECKS, ...AUDITS, UNIT]] : [])];
}

/**
 * Runs the steps of one lane; the lines say what came of each. After a page that was not built its tests are not run.
 * @param {readonly Step[]} steps @param {Place} place @param {boolean} isShownAtOnce
 * @returns {Promise<readonly { line: string, tally: Tally }[]>}
 */
async function runLane(steps, place, isShownAtOnce) {
  const done = [];
  for (const step of steps) {
    /** @type {string[]} */
    const printed = [];
    const print = (/** @type {string} */ text) =>
      void (isShownAtOnce ? process.stdout.write(text) : printed.push(text));
    const tally = await runStep(step, place, print);
    // In one piece, so that two lanes do not mix their lines.
    process.stdout.write(printed.join(''));
    const { passed, failed, skipped } = tally;
    const word = failed > 0 ? 'FAILED ' : passed > 0 ? 'passed ' : 'skipped';
    done.push({ line: `${word} ${step.name}: ${passed} passed, ${failed} failed, ${skipped} skipped`, tally });
    if (step.name === 'build' && failed > 0) {
      const line = 'FAILED  tests in the browser: not run, because the page was not built';
      done.push({ line, tally: { passed: 0, failed: 1, skipped: 0 } });
      break;
    }
  }
  return done;
}

/** @param {string} root @param {readonly string[]} args */
async function test(root, args) {
  ensureNode();
  ensureDependencies(root);
  await ensureModel(root);
  // Some unit tests look at the page in a browser, too.
  process.env['STOWCALL_CHROMIUM'] = ensureChromium();
  const scratch = mkdtempSync(join(tmpdir(), 'stowcall-test-'));
  const lanes = lanesFor(args).map((steps, index) => () => runLane(steps, { root, scratch }, index === 0));
  /** @type {{ line: string, tally: Tally }[]} */
  const done = [];
  if (availableParallelism() > 1) done.push(...(await Promise.all(lanes.map((lane) => lane()))).flat());
  else for (const lane of lanes) done.push(...(await lane()));
  rmSync(scratch, { recursive: true, force: true });
  const sum = (/** @type {keyof Tally} */ what) => done.reduce((total, { tally }) => total + tally[what], 0);
  say(`\n${done.map(({ line }) => line).join('\n')}`);
  say(`${sum('passed')} passed, ${sum('failed')} failed, ${sum('skipped')} skipped`);
  if (sum('failed') > 0) process.exitCode = 1;
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === resolve(process.argv[1])) {
  await run(() => test(resolve(fileURLToPath(import.meta.url), '../../..'), process.argv.slice(2)));
}
