/** The papers and the tree agree: every folder has its row in the map, and every path that a paper names is there. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { basename, dirname, join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** Tracked and new files alike, so that a paper can be checked before it is committed. */
const FILES = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard'], {
  cwd: ROOT,
  encoding: 'utf8',
})
  .split('\n')
  .filter((file) => file !== '');
const FOLDERS = new Set(FILES.flatMap(foldersAbove));
const NAMES = new Set([...FILES, ...FOLDERS].map((path) => basename(path)));
const PAPERS = FILES.filter((file) => /(^|\/)(README|DEVELOPERS)\.md$/.test(file));

/** The folders whose own folders must all stand in the map. */
const MAPPED = ['src', 'src/speech', 'src/packing', 'src/packing/steps', 'src/screens'];

function foldersAbove(file: string): string[] {
  const above = dirname(file);
  return above === '.' ? [] : [above, ...foldersAbove(above)];
}

function read(paper: string): string {
  return readFileSync(join(ROOT, paper), 'utf8');
}

/** What stands in backticks in running text; blocks of code are left out. */
function quoted(text: string): readonly string[] {
  const running = text.replace(/^```[\s\S]*?^```/gm, '');
  return [...running.matchAll(/`([^`\n]+)`/g)].map(([, words = '']) => words);
}

/** Whether a quoted word means a file or folder of this tree: no command, no address, no pattern. */
function isPath(word: string): boolean {
  if (!/^[\w@.][\w@./-]*$/.test(word)) return false;
  if (/^(src|tests|grammars|demo-data|public)\//.test(word)) return true;
  return /\.(tsx?|mjs|cjs|css|gram|html|md)$/.test(word);
}

/** A path is named from the root or, beside the code, by its end below the paper; a name alone may lie anywhere. */
function isThere(paper: string, word: string): boolean {
  const bare = word.replace(/\/$/, '');
  const path = bare.startsWith('.') ? posix.join(dirname(paper), bare) : bare;
  if (FILES.includes(path) || FOLDERS.has(path)) return true;
  if (!path.includes('/')) return NAMES.has(path);
  const beside = `${dirname(paper)}/`;
  return [...FILES, ...FOLDERS].some((one) => one.startsWith(beside) && one.endsWith(`/${path}`));
}

/** The folders in the first column of the map. */
function mappedFolders(): readonly string[] {
  const map = /^## Map\n([\s\S]*?)(?=^## )/m.exec(read('DEVELOPERS.md'))?.[1] ?? '';
  const cells = map.split('\n').map((line) => /^\|([^|]*)\|/.exec(line)?.[1] ?? '');
  return cells.flatMap(quoted);
}

describe('the map in DEVELOPERS.md', () => {
  it('names only folders that exist', () => {
    const mapped = mappedFolders();
    expect(mapped.length).toBeGreaterThan(MAPPED.length);
    expect(mapped.filter((folder) => !FOLDERS.has(folder))).toEqual([]);
  });

  it.each(MAPPED)('has a row for every folder in %s', (parent) => {
    const children = [...FOLDERS].filter((folder) => dirname(folder) === parent);
    const mapped = new Set(mappedFolders());
    expect(children.length).toBeGreaterThan(0);
    expect(children.filter((folder) => !mapped.has(folder))).toEqual([]);
  });
});

describe('the papers at the top', () => {
  it.each([
    ['DEVELOPERS.md', 1800],
    ['README.md', 1000],
  ])('%s stays short: what is long lies beside its code or in the guide', (paper, most) => {
    const words = read(paper)
      .split(/\s+/)
      .filter((word) => /\w/.test(word));
    expect(words.length).toBeLessThanOrEqual(most);
  });
});

describe('every path that a paper names', () => {
  it.each(PAPERS)('exists: %s', (paper) => {
    const paths = quoted(read(paper)).filter(isPath);
    expect(paths.filter((word) => !isThere(paper, word))).toEqual([]);
  });

  it('is told from a command, an address and a pattern', () => {
    expect(
      ['src/domain', 'DEVELOPERS.md', 'public/guide/index.html', 'fact.ts'].filter((word) => !isPath(word)),
    ).toEqual([]);
    expect(['npm start', 'tests/**/*.test.ts', 'localhost', '/', 'STOWCALL_SHARED', 'a.b'].filter(isPath)).toEqual([]);
  });

  it('is missed when it is not there', () => {
    expect(isThere('src/record/README.md', 'store/store.ts')).toBe(true);
    expect(isThere('DEVELOPERS.md', 'src/record/README.md')).toBe(true);
    expect(isThere('DEVELOPERS.md', 'src/record/no-such-file.ts')).toBe(false);
    expect(isThere('DEVELOPERS.md', 'no-such-file.ts')).toBe(false);
    expect(isThere('DEVELOPERS.md', 'store/store.ts')).toBe(false);
    expect(isThere('src/scan/README.md', 'store/store.ts')).toBe(false);
  });
});
