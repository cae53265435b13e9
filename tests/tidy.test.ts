/** What the checks must reach: every source file is type-checked, and the rules of the core refuse what they are for. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ESLint } from 'eslint';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

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
      for (const folder of ['domain', 'packing', 'record/verify']) {
        const [result] = await eslint.lintText(`export const at = ${code};\n`, {
          filePath: join(ROOT, `src/${folder}/instant.ts`.replace('record/verify/instant', 'record/verify/calendar')),
        });
        expect(result?.errorCount, `${code} in ${folder}`).toBeGreaterThan(0);
      }
    },
  );
});

describe('the verifier', () => {
  function brokenRules(verifier: string): string {
    const root = mkdtempSync(join(tmpdir(), 'stowcall-arrows-'));
    const files = {
      'tsconfig.json': '{}',
      'src/record/verify/judge.ts': verifier,
      'src/record/chain/hash.ts': 'export const hash = 1;\n',
      'src/domain/dates.ts': 'export interface Day { readonly d: number }\nexport const day = 1;\n',
    };
    for (const [file, text] of Object.entries(files)) {
      mkdirSync(dirname(join(root, file)), { recursive: true });
      writeFileSync(join(root, file), text);
    }
    const cruise = join(ROOT, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
    const args = [cruise, 'src', '--config', join(ROOT, '.dependency-cruiser.cjs')];
    return spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' }).stdout;
  }

  it.each([
    [
      'code of the writer',
      "import { hash } from '../chain/hash';\nexport const x = hash;\n",
      'verifier-never-imports-the-writer',
    ],
    [
      'code of the nouns',
      "import { day } from '../../domain/dates';\nexport const x = day;\n",
      'verifier-takes-only-types-of-the-nouns',
    ],
  ])('may not use %s', (_, source, rule) => {
    expect(brokenRules(source)).toContain(rule);
  });

  it('may use the types of the nouns', () => {
    const source = "import type { Day } from '../../domain/dates';\nexport const x: Day = { d: 1 };\n";
    expect(brokenRules(source)).toContain('no dependency violations');
  });
});
