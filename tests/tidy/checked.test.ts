/** What the checks must reach: every source file is type-checked, and the rules of the core refuse what they are for. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ESLint } from 'eslint';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

function checkedFiles(): ReadonlySet<string> {
  const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { scripts: { types: string } };
  const configs = [...scripts.types.matchAll(/tsc -p (\S+)/g)].map(([, file = '']) => join(ROOT, file));
  const host = { ...ts.sys, onUnRecoverableConfigFileDiagnostic: () => undefined };
  return new Set(configs.flatMap((file) => ts.getParsedCommandLineOfConfigFile(file, {}, host)?.fileNames ?? []));
}

describe('every source file', () => {
  it('is in a type check', () => {
    const checked = checkedFiles();
    const sources = execFileSync('git', ['ls-files', 'src'], { cwd: ROOT, encoding: 'utf8' }).split('\n');
    const missing = sources.filter((file) => /\.tsx?$/.test(file) && !checked.has(join(ROOT, file)));
    expect(missing).toEqual([]);
  });
});

describe('the core reads no clock', () => {
  it.each(['new Date()', 'Date()', 'Date.now()', 'performance.now()', 'globalThis.Date.now()'])(
    'and %s is refused there',
    async (code) => {
      const eslint = new ESLint({ cwd: ROOT });
      for (const folder of ['domain', 'packing', 'record/verify/sums']) {
        const [result] = await eslint.lintText(`export const at = ${code};\n`, {
          filePath: join(ROOT, `src/${folder}/instant.ts`),
        });
        expect(result?.errorCount, `${code} in ${folder}`).toBeGreaterThan(0);
      }
    },
  );
});
