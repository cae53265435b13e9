/** `npm test`: makes sure of everything, runs every check and every test, and ends with one line that counts them. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureChromium, ensureDependencies, ensureModel, ensureNode } from './ensure.mjs';
import { run, say } from './say.mjs';

/**
 * @typedef {{ passed: number, failed: number, skipped: number }} Tally
 * @typedef {{ env?: string, flag?: string, read: (file: string) => Tally }} Report where to write, told by one of both
 * @typedef {{ name: string, command: readonly string[], report?: Report, maySkip?: boolean }} Step
 */

/** Programs of the installed packages, run without a shell. @param {string} file */
const packaged = (file) => [process.execPath, join('node_modules', file)];
const tsc = packaged('typescript/bin/tsc');

/** Each of these counts as one test. @type {readonly Step[]} */
const CHECKS = [
  { name: 'types', command: [...tsc, '-p', 'tsconfig.json'] },
  { name: 'types of the pure folders', command: [...tsc, '-p', 'tsconfig.pure.json'] },
  { name: 'types of the workers', command: [...tsc, '-p', 'tsconfig.worker.json'] },
  { name: 'types of the worklets', command: [...tsc, '-p', 'tsconfig.worklet.json'] },
  { name: 'types of the grammar package', command: [...tsc, '-p', 'src/speech/grammar/tsconfig.json'] },
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
 * @param {Step} step @param {string} root @param {string} scratch
 * @returns {Tally}
 */
export function runStep({ name, command, report, maySkip = false }, root, scratch) {
  say(`\n== ${name}`);
  const file = join(scratch, `${name.replaceAll(' ', '-')}.json`);
  const [program = '', ...rest] = command;
  const args = report?.flag === undefined ? rest : [...rest, `${report.flag}=${file}`];
  const env = report?.env === undefined ? process.env : { ...process.env, [report.env]: file };
  const ended = spawnSync(program, args, { cwd: root, stdio: 'inherit', env });
  const good = ended.status === 0;
  if (report === undefined) return { passed: good ? 1 : 0, failed: good ? 0 : 1, skipped: 0 };
  const tally = existsSync(file) ? report.read(file) : { passed: 0, failed: 1, skipped: 0 };
  const nothing = tally.passed === 0 && !(maySkip && tally.skipped > 0);
  if (tally.failed === 0 && (!good || nothing)) tally.failed = 1;
  return tally;
}

/** The steps for `--unit` (checks and unit tests), `--e2e` (build and browser), or all of them. @param {readonly string[]} args */
export function stepsFor(args) {
  const unit = args.includes('--unit') || !args.includes('--e2e');
  const browser = args.includes('--e2e') || !args.includes('--unit');
  return [...(unit ? [...CHECKS, ...AUDITS, UNIT] : []), ...(browser ? END_TO_END : [])];
}

/** @param {string} root @param {readonly string[]} args */
async function test(root, args) {
  ensureNode();
  ensureDependencies(root);
  await ensureModel(root);
  // Some unit tests look at the page in a browser, too.
  process.env['STOWCALL_CHROMIUM'] = ensureChromium();
  const scratch = mkdtempSync(join(tmpdir(), 'stowcall-test-'));
  const total = { passed: 0, failed: 0, skipped: 0 };
  /** @type {string[]} */
  const lines = [];
  for (const step of stepsFor(args)) {
    const { passed, failed, skipped } = runStep(step, root, scratch);
    total.passed += passed;
    total.failed += failed;
    total.skipped += skipped;
    const word = failed > 0 ? 'FAILED ' : passed > 0 ? 'passed ' : 'skipped';
    lines.push(`${word} ${step.name}: ${passed} passed, ${failed} failed, ${skipped} skipped`);
    if (step.name === 'build' && failed > 0) {
      total.failed += 1;
      lines.push('FAILED  tests in the browser: not run, because the page was not built');
      break;
    }
  }
  rmSync(scratch, { recursive: true, force: true });
  say(`\n${lines.join('\n')}`);
  say(`${total.passed} passed, ${total.failed} failed, ${total.skipped} skipped`);
  if (total.failed > 0) process.exitCode = 1;
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === resolve(process.argv[1])) {
  await run(() => test(resolve(fileURLToPath(import.meta.url), '../../..'), process.argv.slice(2)));
}
