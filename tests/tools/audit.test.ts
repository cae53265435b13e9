/** The rule of the dependency audit: what fails, what is excepted, and what says nothing at all. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { judgeAudit, parseExceptions } from '../../src/tools/audit.mjs';

const TODAY = '2026-11-25';

interface Weakness {
  readonly name: string;
  readonly severity: string;
  readonly id?: string;
}

/** An answer in npm's form (audit report version 2, as `npm audit --json` of npm 7 and later writes it). */
function answer(weak: readonly Weakness[], changes: object = {}): string {
  const count = (severity: string): number => weak.filter((one) => one.severity === severity).length;
  return JSON.stringify({
    auditReportVersion: 2,
    vulnerabilities: Object.fromEntries(
      weak.flatMap(({ name, severity, id = 'GHSA-aaaa-bbbb-cccc' }) => {
        const via = [{ source: 1, name, title: 'Falls over', url: `https://example.org/${id}`, severity, range: '<2' }];
        return [
          [name, { name, severity, via, effects: [`user-of-${name}`] }],
          [`user-of-${name}`, { name: `user-of-${name}`, severity, via: [name], effects: [] }],
        ];
      }),
    ),
    metadata: {
      vulnerabilities: {
        info: 0,
        low: count('low') * 2,
        moderate: count('moderate') * 2,
        high: count('high') * 2,
        critical: count('critical') * 2,
        total: weak.length * 2,
      },
    },
    ...changes,
  });
}

const exception = (changes: object = {}) => ({
  advisory: 'GHSA-aaaa-bbbb-cccc',
  package: 'bad',
  reason: 'the weak part is never called',
  until: '2026-12-31',
  ...changes,
});
const high = answer([{ name: 'bad', severity: 'high' }]);

describe('the audit', () => {
  it.each([
    ['nothing found', answer([]), [], 'passed'],
    [
      'a low and a moderate one',
      answer([
        { name: 'a', severity: 'low' },
        { name: 'b', severity: 'moderate' },
      ]),
      [],
      'passed',
    ],
    ['a high one', high, [], 'failed'],
    ['a critical one', answer([{ name: 'bad', severity: 'critical' }]), [], 'failed'],
    ['a high one that is listed', high, [exception()], 'passed'],
    ['one that is listed until today', high, [exception({ until: TODAY })], 'passed'],
    ['one that was listed until yesterday', high, [exception({ until: '2026-11-24' })], 'failed'],
    ['another advisory of a listed package', high, [exception({ advisory: 'GHSA-other' })], 'failed'],
    ['the listed advisory in another package', high, [exception({ package: 'other' })], 'failed'],
    [
      'two of which one is listed',
      answer([
        { name: 'bad', severity: 'high' },
        { name: 'worse', severity: 'critical', id: 'GHSA-dddd-eeee-ffff' },
      ]),
      [exception()],
      'failed',
    ],
    ['a listed one that is not there', answer([]), [exception()], 'passed'],
    ['no answer at all', '', [], 'failed'],
    ['an answer that is no JSON', 'npm: command not found', [], 'failed'],
    ['a form of a later npm', answer([], { auditReportVersion: 3 }), [], 'failed'],
    ['a report without its list', answer([], { vulnerabilities: null }), [], 'failed'],
    [
      'a count without an advisory',
      answer([], { metadata: { vulnerabilities: { high: 1, critical: 0 } } }),
      [],
      'failed',
    ],
    ['no count', answer([], { metadata: {} }), [], 'failed'],
    [
      'a registry that does not allow it',
      JSON.stringify({ message: '405 Method Not Allowed - POST', statusCode: 405, error: { summary: '', detail: '' } }),
      [],
      'skipped',
    ],
    [
      'no network',
      JSON.stringify({ error: { code: 'ENOTFOUND', summary: 'getaddrinfo failed', detail: '' } }),
      [],
      'skipped',
    ],
    [
      'no lock file',
      JSON.stringify({ error: { code: 'ENOLOCK', summary: 'This command requires an existing lockfile.' } }),
      [],
      'failed',
    ],
  ])('%s', (...[, text, exceptions, outcome]) => {
    expect(judgeAudit(text, exceptions, TODAY).outcome).toBe(outcome);
  });

  it('names package, advisory and what to do', () => {
    const { lines } = judgeAudit(high, [], TODAY);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(/bad: GHSA-aaaa-bbbb-cccc, high: Falls over\. Update it, or list it with a reason\./);
  });

  it('says when a listed exception is over, and when none is needed', () => {
    expect(judgeAudit(high, [exception({ until: '2026-01-01' })], TODAY).lines[0]).toContain('ended on 2026-01-01');
    expect(judgeAudit(answer([]), [exception()], TODAY).lines[0]).toContain('not needed here');
  });
});

describe('the list of exceptions', () => {
  it('of this project is in order', () => {
    const text = readFileSync(join(import.meta.dirname, '../../src/tools/audit-exceptions.json'), 'utf8');
    expect(parseExceptions(text)).toBeInstanceOf(Array);
  });

  it.each([
    ['no JSON', '['],
    ['no list', '{}'],
    ['no reason', JSON.stringify([exception({ reason: ' ' })])],
    ['no end', JSON.stringify([exception({ until: undefined })])],
    ['an end that is no day', JSON.stringify([exception({ until: '2026-02-30' })])],
    ['an end without an end', JSON.stringify([exception({ until: 'never' })])],
    ['not an entry', '[null]'],
  ])('is refused with %s', (_name, text) => {
    expect(typeof parseExceptions(text)).toBe('string');
  });
});
