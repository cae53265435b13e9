/** The command line: a wrong call lists what there is. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { runStowcall } from '../../src/tools/stowcall';

let said: string[];
beforeEach(() => {
  said = [];
  vi.spyOn(console, 'error').mockImplementation((line: string) => void said.push(line));
});
afterEach(() => {
  vi.restoreAllMocks();
});

describe('stowcall', () => {
  it.each([[[]], [['nonsense']], [['constructor']], [['toString']]])('%j lists the commands', async (args) => {
    expect(await runStowcall(args)).toBe(2);
    const text = said.join('\n');
    for (const name of ['lint', 'labels', 'srgs-check', 'merkle-check', 'confusions']) expect(text).toContain(name);
  });

  it('names the command that there is not', async () => {
    await runStowcall(['nonsense']);
    expect(said[0]).toBe('There is no command "nonsense".');
  });
});
