/** `npm run audit`: no dependency with a known grave weakness, but for the listed exceptions. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run, say } from './say.mjs';

/**
 * @typedef {{ advisory: string, package: string, reason: string, until: string }} Exception `until` is the last day on which it counts
 * @typedef {{ outcome: 'passed' | 'failed' | 'skipped', lines: readonly string[] }} Judgement
 * @typedef {{ id: string, package: string, severity: string, title: string }} Advisory
 */

const GRAVE = ['high', 'critical'];
/** One answer is enough: a registry that does not answer must not hold up everything else. */
const NPM = ['audit', '--json', '--package-lock-only', '--fetch-retries=0', '--fetch-timeout=30000'];

/** @param {unknown} value @returns {value is Record<string, unknown>} */
function isRecord(value) {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/**
 * The list of exceptions, or a sentence on what is wrong with it.
 * @param {string} text @returns {readonly Exception[] | string}
 */
export function parseExceptions(text) {
  let list;
  try {
    list = JSON.parse(text);
  } catch {
    return 'The list of exceptions is not JSON.';
  }
  if (!Array.isArray(list)) return 'The list of exceptions is not a list.';
  for (const entry of list) {
    const words = ['advisory', 'package', 'reason', 'until'].map((name) => (isRecord(entry) ? entry[name] : null));
    const filled = words.every((word) => typeof word === 'string' && word.trim() !== '');
    if (!filled || !isDay(String(words[3]))) {
      return `An exception needs advisory, package, reason and until (a day like 2026-12-31): ${JSON.stringify(entry)}`;
    }
  }
  return list;
}

/** @param {string} text */
function isDay(text) {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const date = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}

/**
 * What the answer of `npm audit --json` means. Fails on what it does not understand; skips only where the registry said
 * that it gives no answer.
 * @param {string} answer @param {readonly Exception[]} exceptions @param {string} today @returns {Judgement}
 */
export function judgeAudit(answer, exceptions, today) {
  let report;
  try {
    report = JSON.parse(answer);
  } catch {
    return failed(['npm gave no answer that can be read.']);
  }
  if (!isRecord(report)) return failed(['npm gave no answer that can be read.']);
  if ('error' in report) return judgeError(report);
  const { vulnerabilities, metadata } = report;
  if (report['auditReportVersion'] !== 2 || !isRecord(vulnerabilities)) {
    return failed(['npm answered in a form that is not known here; nothing can be concluded from it.']);
  }
  const grave = graveAdvisories(vulnerabilities);
  const counted = countGrave(metadata);
  if (counted === null || counted > 0 !== grave.length > 0) {
    return failed(['The answer contradicts itself: what it counts and what it lists do not agree.']);
  }
  return judgeAdvisories(grave, exceptions, today);
}

/** @param {Record<string, unknown>} report @returns {Judgement} */
function judgeError(report) {
  const { error, message, statusCode } = report;
  const code = isRecord(error) ? String(error['code'] ?? '') : '';
  const why = String(message ?? (isRecord(error) ? error['summary'] : '') ?? '').slice(0, 200);
  // Of npm's own errors only those that mean "not reached" count as no answer: a broken lock file must not pass unseen.
  const unreached =
    /^(ENOTFOUND|ECONNREFUSED|ECONNRESET|ETIMEDOUT|EAI_AGAIN|ENETUNREACH|EHOSTUNREACH|ENOAUDIT|ENDPOINT)/;
  const refused = typeof statusCode === 'number' && statusCode >= 400;
  if (refused || unreached.test(code) || /audit endpoint|network|ENOTFOUND|ECONNREFUSED/i.test(why)) {
    return {
      outcome: 'skipped',
      lines: [`The registry gives no audit answer, so nothing was audited. ${why || code}`],
    };
  }
  return failed([`npm could not audit. ${why || code}`]);
}

/** @param {Record<string, unknown>} vulnerabilities @returns {readonly Advisory[]} */
function graveAdvisories(vulnerabilities) {
  /** @type {Map<string, Advisory>} */
  const found = new Map();
  for (const [name, entry] of Object.entries(vulnerabilities)) {
    const via = isRecord(entry) && Array.isArray(entry['via']) ? entry['via'] : [];
    // Words among them are names of other packages, whose own entries have the advisory.
    for (const one of via) {
      if (!isRecord(one) || !GRAVE.includes(String(one['severity']))) continue;
      const id = String(one['url'] ?? one['source'] ?? 'unnamed').replace(/^.*\//, '');
      const of = String(one['name'] ?? name);
      found.set(`${id} ${of}`, {
        id,
        package: of,
        severity: String(one['severity']),
        title: String(one['title'] ?? ''),
      });
    }
  }
  return [...found.values()];
}

/** @param {unknown} metadata */
function countGrave(metadata) {
  const counts = isRecord(metadata) && isRecord(metadata['vulnerabilities']) ? metadata['vulnerabilities'] : {};
  const numbers = GRAVE.map((severity) => counts[severity]);
  if (!numbers.every((number) => Number.isInteger(number))) return null;
  return numbers.reduce((/** @type {number} */ sum, number) => sum + Number(number), 0);
}

/** @param {readonly Advisory[]} grave @param {readonly Exception[]} exceptions @param {string} today @returns {Judgement} */
function judgeAdvisories(grave, exceptions, today) {
  const lines = [];
  let bad = false;
  for (const { id, package: name, severity, title } of grave) {
    const exception = exceptions.find((one) => one.advisory === id && one.package === name);
    const excused = exception !== undefined && today <= exception.until;
    if (!excused) bad = true;
    const why =
      exception === undefined
        ? 'Update it, or list it with a reason.'
        : excused
          ? `Excepted until ${exception.until}: ${exception.reason}`
          : `The exception ended on ${exception.until}.`;
    lines.push(`${excused ? 'excepted' : 'FAILED'}  ${name}: ${id}, ${severity}: ${title}. ${why}`);
  }
  for (const one of exceptions) {
    const used = grave.some(({ id, package: name }) => id === one.advisory && name === one.package);
    if (!used) lines.push(`not needed here: the exception for ${one.package}, ${one.advisory}`);
  }
  return bad ? failed(lines) : { outcome: 'passed', lines };
}

/** @param {readonly string[]} lines @returns {Judgement} */
function failed(lines) {
  return { outcome: 'failed', lines };
}

/** @param {string} root @param {readonly string[]} args */
function audit(root, args) {
  const listed = parseExceptions(readFileSync(resolve(root, 'src/tools/audit-exceptions.json'), 'utf8'));
  const today = new Date().toISOString().slice(0, 10);
  /** @type {Judgement} */
  let judged;
  if (typeof listed === 'string') judged = failed([listed]);
  else {
    const omit = args.includes('--omit=dev') ? ['--omit=dev'] : [];
    const { stdout } = spawnSync('npm', [...NPM, ...omit], { cwd: root, encoding: 'utf8', maxBuffer: 100_000_000 });
    judged = judgeAudit(stdout ?? '', listed, today);
  }
  for (const line of judged.lines) say(line);
  say(`dependencies: ${judged.outcome}`);
  const file = process.env['STOWCALL_AUDIT_JSON'];
  if (file !== undefined) writeFileSync(file, JSON.stringify(judged));
  if (judged.outcome === 'failed') process.exitCode = 1;
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === resolve(process.argv[1])) {
  await run(async () => audit(resolve(fileURLToPath(import.meta.url), '../../..'), process.argv.slice(2)));
}
