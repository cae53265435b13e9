/** The counting of tests: no failure is lost, and nothing that was not run counts as passed. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { readAudit, readEndToEnd, readUnit, runStep, stepsFor } from '../../src/tools/test.mjs';

let scratch: string;
beforeEach(() => {
  scratch = mkdtempSync(join(tmpdir(), 'stowcall-count-'));
  vi.spyOn(console, 'log').mockImplementation(() => undefined);
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(scratch, { recursive: true });
});
const file = (content: object) => {
  const path = join(scratch, 'report.json');
  writeFileSync(path, JSON.stringify(content));
  return path;
};

describe('reports', () => {
  it('of unit tests: a file that could not be loaded is a failure', () => {
    const report = {
      numPassedTests: 5,
      numFailedTests: 1,
      numPendingTests: 2,
      numTodoTests: 1,
      testResults: [
        { status: 'failed', assertionResults: [] },
        { status: 'failed', assertionResults: [{}] },
        { status: 'passed', assertionResults: [{}] },
      ],
    };
    expect(readUnit(file(report))).toEqual({ passed: 5, failed: 2, skipped: 3 });
  });

  it('of the browser: a flaky test and an error outside of tests are failures', () => {
    const report = { stats: { expected: 3, unexpected: 1, flaky: 1, skipped: 2 }, errors: [{}] };
    expect(readEndToEnd(file(report))).toEqual({ passed: 3, failed: 3, skipped: 2 });
  });
});

describe('an audit', () => {
  it.each([
    ['passed', { passed: 1, failed: 0, skipped: 0 }],
    ['failed', { passed: 0, failed: 1, skipped: 0 }],
    ['skipped', { passed: 0, failed: 0, skipped: 1 }],
  ])('that is %s counts as that', (outcome, tally) => {
    expect(readAudit(file({ outcome, lines: [] }))).toEqual(tally);
  });
});

describe('a step', () => {
  const node = (script: string) => [process.execPath, '-e', script];
  const read = () => ({ passed: 2, failed: 0, skipped: 0 });
  const writes = "require('fs').writeFileSync(process.env.REPORT, '');";

  it.each([
    ['a check that holds', { command: node('') }, { passed: 1, failed: 0, skipped: 0 }],
    ['a check that does not', { command: node('process.exit(1)') }, { passed: 0, failed: 1, skipped: 0 }],
    ['a program that is not there', { command: ['/nowhere/at/all'] }, { passed: 0, failed: 1, skipped: 0 }],
    [
      'tests that pass',
      { command: node(writes), report: { env: 'REPORT', read } },
      { passed: 2, failed: 0, skipped: 0 },
    ],
    [
      'a good report and a bad end',
      { command: node(`${writes}process.exit(1)`), report: { env: 'REPORT', read } },
      { passed: 2, failed: 1, skipped: 0 },
    ],
    ['no report', { command: node(''), report: { env: 'REPORT', read } }, { passed: 0, failed: 1, skipped: 0 }],
    [
      'a report of nothing',
      { command: node(writes), report: { env: 'REPORT', read: () => ({ passed: 0, failed: 0, skipped: 9 }) } },
      { passed: 0, failed: 1, skipped: 9 },
    ],
    [
      'nothing but skipped where it may skip',
      {
        command: node(writes),
        report: { env: 'REPORT', read: () => ({ passed: 0, failed: 0, skipped: 1 }) },
        maySkip: true,
      },
      { passed: 0, failed: 0, skipped: 1 },
    ],
    [
      'a bad end where it may skip',
      {
        command: node(`${writes}process.exit(1)`),
        report: { env: 'REPORT', read: () => ({ passed: 0, failed: 0, skipped: 1 }) },
        maySkip: true,
      },
      { passed: 0, failed: 1, skipped: 1 },
    ],
  ])('%s', (name, step, tally) => {
    expect(runStep({ name, ...step }, scratch, scratch)).toEqual(tally);
  });
});

describe('what is run', () => {
  it.each([
    [[], ['types', 'lint', 'unit tests', 'build', 'tests in the browser']],
    [['--unit'], ['types', 'lint', 'unit tests']],
    [['--e2e'], ['build', 'tests in the browser']],
  ])('%j', (args, names) => {
    const run = stepsFor(args).map(({ name }) => name);
    expect(run.filter((name) => names.includes(name))).toEqual(names);
    expect(run.length).toBe(args.length === 0 ? 11 : args[0] === '--unit' ? 9 : 2);
  });
});
