/** Files stay short and folders small, so that a stranger finds the place of any change. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const LINES_MAX = 300;
const FILES_MAX = 25;

/** Tables, stories, texts and recordings are read by machines or from top to bottom, and may be as long as they are. */
const DATA = /[.](ya?ml|json|jsonl|md|txt|png|wav|svg|abnf|gram)$/;

/** Folders of data: a file for each case, found by its name. */
const DATA_FOLDERS = ['tests/loft/broken', 'tests/voice/phrases/en'];

const files = execFileSync('git', ['ls-files', 'src', 'tests'], { cwd: ROOT, encoding: 'utf8' }).trim().split('\n');

function linesOf(file: string): number {
  return readFileSync(join(ROOT, file), 'utf8').trimEnd().split('\n').length;
}

describe('no file is too long', () => {
  const tooLong = files.filter((file) => !DATA.test(file) && linesOf(file) > LINES_MAX);

  it(`of code: ${LINES_MAX} lines at most`, () => {
    expect(tooLong).toEqual([]);
  });
});

describe('no folder is too large', () => {
  const sizes = new Map<string, number>();
  for (const file of files) sizes.set(dirname(file), (sizes.get(dirname(file)) ?? 0) + 1);
  const tooLarge = [...sizes].filter(([, size]) => size > FILES_MAX).map(([folder]) => folder);

  it(`of code: ${FILES_MAX} files at most`, () => {
    expect(tooLarge.filter((folder) => !DATA_FOLDERS.includes(folder))).toEqual([]);
  });

  it('and no folder of data is named in vain', () => {
    expect(DATA_FOLDERS.filter((folder) => !tooLarge.includes(folder))).toEqual([]);
  });
});
