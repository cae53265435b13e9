/** What a test file says to `vitest`, taken down to be run by the quick runner: what the tests of the pure folders use, and no more. */
import { createRequire } from 'node:module';
import { format } from 'node:util';
import { JestAsymmetricMatchers, JestChaiExpect, JestExtend } from '@vitest/expect';
import * as chai from 'chai';

/**
 * @typedef {() => unknown} Body
 * @typedef {(...row: any[]) => unknown} RowBody
 * @typedef {{ id: string, name: string, body: Body, before: readonly Body[] }} Test `before` is run once in each loaded file
 */

for (const plugin of [JestExtend, JestChaiExpect, JestAsymmetricMatchers]) chai.use(/** @type {any} */ (plugin));
// The same examples for every mutant and in every run.
createRequire(import.meta.url)('fast-check').configureGlobal({ seed: 20261125 });

/** What the file that is being loaded declares. @type {{ file: string, names: string[], before: Body[], tests: Test[] }} */
let loading = { file: '', names: [], before: [], tests: [] };

/** Rows of a table are told apart by their number: two may have the same words. @param {string} name @param {any[]} row @param {number} index */
function titled(name, row, index) {
  const [first] = row;
  const said =
    typeof first === 'object' ? name.replace(/\$(\w+)/g, (_, key) => String(first?.[key])) : format(name, ...row);
  return `${said.slice(0, 120)} [${String(index)}]`;
}

/** @param {(name: string, body: Body) => void} declare */
const eachOf =
  (declare) => (/** @type {readonly any[]} */ rows) => (/** @type {string} */ name, /** @type {RowBody} */ body) =>
    rows.forEach((row, index) => {
      const args = Array.isArray(row) ? row : [row];
      declare(titled(name, args, index), () => body(...args));
    });

/** @param {string} name @param {Body} body */
function describe(name, body) {
  const { names, before } = loading;
  loading = { ...loading, names: [...names, name], before: [...before] };
  body();
  loading = { ...loading, names, before };
}

/** @param {string} name @param {Body} body */
function it(name, body) {
  const { file, names, before, tests } = loading;
  const whole = [...names, name].join(' ');
  tests.push({ id: `${file}#${whole}`, name: whole, body, before });
}

Object.assign(globalThis, {
  quickVitest: {
    describe: Object.assign(describe, { each: eachOf(describe) }),
    it: Object.assign(it, { each: eachOf(it) }),
    expect: chai.expect,
    beforeAll: (/** @type {Body} */ body) => void loading.before.push(body),
    vi: { setConfig: () => undefined },
  },
});

/** The tests that are declared while `start` runs. @param {string} file @param {() => void} start @returns {readonly Test[]} */
export function declaredBy(file, start) {
  loading = { file, names: [], before: [], tests: [] };
  const { tests } = loading;
  start();
  return tests;
}
