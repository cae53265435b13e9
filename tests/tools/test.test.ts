/** The counting of tests: no failure is lost, and nothing that was not run counts as passed. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { lanesFor, readAudit, readEndToEnd, readUnit, runStep } from '../../src/tools/test.mjs';

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
  ])('%s', async (name, step, tally) => {
    expect(await runStep({ name, ...step }, { root: scratch, scratch }, () => undefined)).toEqual(tally);
  });

  it('hands on what its program prints, to either end', async () => {
    const printed: string[] = [];
    const command = node("console.log('one'); console.error('two')");
    await runStep({ name: 'both', command }, { root: scratch, scratch }, (text) => printed.push(text));
    expect(printed.join('')).toContain('== both');
    for (const line of ['one\n', 'two\n']) expect(printed.join('')).toContain(line);
  });
});

const BROWSER = ['build', 'tests in the browser'];
const CHECKS = ['types', 'lint', 'arrows between folders', 'unit tests'];

describe('what is run', () => {
  it.each([
    [[], [BROWSER, CHECKS]],
    [['--unit'], [CHECKS]],
    [['--e2e'], [BROWSER]],
  ])('%j: side by side are %j', (args, lanes) => {
    expect(lanesFor(args).map((steps) => steps.map(({ name }) => name))).toEqual(
      lanes.map((names) => expect.arrayContaining(names)),
    );
    // The page is built before it is tested, and what is quick to fail comes first.
    for (const steps of lanesFor(args)) expect(steps.at(-1)?.name).toMatch(/^(tests in the browser|unit tests)$/);
  });
});
