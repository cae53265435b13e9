/** The tool that makes a stored PIN: from the input alone, and only for digits that may become one. */
import { Readable } from 'node:stream';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { pinFits } from '../../../src/kiosk/pin/slow-hash';
import { runPin } from '../../../src/tools/commands/pin';
import { hearConsole } from './said';

let said: string[] = [];
beforeEach(() => {
  said = hearConsole();
});
afterEach(() => vi.restoreAllMocks());

describe('stowcall pin', () => {
  it('prints a line for the people file', async () => {
    expect(await runPin([], Readable.from(['482913\n']))).toBe(0);
    const stored = /^pin: '(.*)'$/.exec(said[0] ?? '')?.[1] ?? '';
    expect(await pinFits('482913', stored)).toBe(true);
  });

  it.each([['123456\n'], ['48\n'], ['']])('refuses %j', async (text) => {
    expect(await runPin([], Readable.from([text]))).toBe(1);
  });

  it('takes no PIN from its arguments', async () => {
    expect(await runPin(['482913'], Readable.from(['']))).toBe(2);
    expect(said.join('\n')).toContain('history');
  });
});
