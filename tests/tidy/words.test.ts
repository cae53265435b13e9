/** Words that gave way to those of the field do not come back. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { RETIRED } from './retired-words';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PLACES = ['src', 'tests', 'grammars', 'public', 'README.md', 'DEVELOPERS.md', '*.ts', '*.js', '*.json', '*.html'];
const TEXT = /[.](tsx?|mjs|cjs|js|css|html|md|gram|ya?ml)$/;
/** The list itself, and what is read as it was recorded. */
const EXEMPT = /^tests\/tidy\//;

const files = execFileSync('git', ['ls-files', ...PLACES], { cwd: ROOT, encoding: 'utf8' })
  .split('\n')
  .filter((file) => TEXT.test(file) && !EXEMPT.test(file));
const texts = new Map(files.map((file) => [file, readFileSync(join(ROOT, file), 'utf8')]));

describe.each(RETIRED)('$now', ({ word, was }) => {
  const found = [...texts].filter(([file, text]) => word.test(file) || word.test(text)).map(([file]) => file);

  it(`stands where ${String(word)} stood`, () => {
    expect(found).toEqual([]);
  });

  it(`and would be missed in "${was}"`, () => {
    expect(was).toMatch(word);
  });
});
