import { defineConfig } from 'vitest/config';
import type { TestSpecification } from 'vitest/node';
import { BaseSequencer } from 'vitest/node';

/** The tests that a mutation run asks: those beside the broken folder, named by `npm run mutate`. */
const tests = process.env.STOWCALL_MUTATION_TESTS?.split(',') ?? ['tests/domain/**/*.test.ts'];

/** These explore whole state graphs and take minutes for each mutant; they are asked by name only. */
const slow = ['tests/packing/graph*.test.ts'];

/** A run ends at the first test that notices, so those that notice much in little time come first. */
const FIRST = ['stories', 'pin', 'fold', 'detail'];
const LAST = ['walks'];

function rankOf({ moduleId }: TestSpecification): number {
  const name = moduleId.split('/').at(-1)?.split('.')[0] ?? '';
  if (LAST.includes(name)) return FIRST.length + 1;
  return FIRST.includes(name) ? FIRST.indexOf(name) : FIRST.length;
}

class QuickFirst extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return Promise.resolve([...files].sort((one, other) => rankOf(one) - rankOf(other)));
  }
}

export default defineConfig({
  test: {
    include: tests,
    exclude: tests.some((named) => named.startsWith('tests/packing/graph')) ? [] : slow,
    environment: 'node',
    sequence: { sequencer: QuickFirst },
  },
});
