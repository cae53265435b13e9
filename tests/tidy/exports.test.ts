/** Nothing is exported that nobody imports, and nothing lives in `src` for tests alone (`knip.config.js` says how). */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** One line for each thing that nobody uses: its kind, file and name. */
function unusedIn(args: readonly string[]): readonly string[] {
  const knip = join(ROOT, 'node_modules/knip/bin/knip.js');
  const command = [knip, '--reporter', 'json', '--no-config-hints', ...args];
  const { stdout, stderr, status } = spawnSync(process.execPath, command, { cwd: ROOT, encoding: 'utf8' });
  // 0: nothing is unused, 1: something is; anything else is no answer.
  if (status !== 0 && status !== 1) throw new Error(stderr);
  const { issues } = JSON.parse(stdout) as { issues: readonly Record<string, unknown>[] };
  return issues.flatMap(({ file, ...kinds }) =>
    Object.entries(kinds).flatMap(([kind, found]) =>
      Array.isArray(found) ? found.map((one: { name?: string }) => `${kind} ${String(file)}: ${one.name ?? ''}`) : [],
    ),
  );
}

describe('what is exported', () => {
  it.each([
    ['by anybody', []],
    ['but by tests', ['--production']],
  ])('and not used %s, goes', (_, args) => {
    expect(unusedIn(args)).toEqual([]);
  });
});
