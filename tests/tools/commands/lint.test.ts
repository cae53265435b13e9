/** The lint command: what it prints, and what it answers to the shell. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { kindOfFile } from '../../../src/loft/load-loft';
import { runLint } from '../../../src/tools/commands/lint';

const root = join(import.meta.dirname, '../../..');
const printed: string[] = [];

beforeEach(() => {
  printed.length = 0;
  vi.spyOn(console, 'log').mockImplementation((line: string) => void printed.push(line));
  vi.spyOn(console, 'error').mockImplementation((line: string) => void printed.push(line));
});
afterEach(() => {
  vi.restoreAllMocks();
});

describe('lint', () => {
  it('finds the shipped loft clean', async () => {
    expect(await runLint([join(root, 'demo-data')])).toBe(0);
    expect(printed).toEqual(['Files checked: 6. Findings: 0.']);
  });

  it('takes a single file', async () => {
    expect(await runLint([join(root, 'demo-data/procedures/corrow-c3-cargo.yaml')])).toBe(0);
    expect(await runLint([join(root, 'demo-data/assemblies.yaml'), join(root, 'demo-data/people.yaml')])).toBe(0);
    expect(await runLint([join(root, 'demo-data/loft.yaml')])).toBe(0);
  });

  it('refuses a file alone that ends in ".yml", which the kiosk passes over', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'loft-'));
    const sound = readFileSync(join(root, 'demo-data/procedures/corrow-c3-cargo.yaml'), 'utf8');
    try {
      mkdirSync(join(folder, 'procedures'));
      for (const name of ['procedures/corrow-c3-cargo.yml', 'corrow-c3-cargo.YML', 'people.yml', 'assemblies.yml']) {
        const file = join(folder, name);
        writeFileSync(file, sound);
        printed.length = 0;
        expect(await runLint([file]), name).toBe(1);
        expect(printed).toEqual([
          `${file}:1: A loft has no files that end in ".yml". Name it ".yaml".`,
          'Files checked: 1. Findings: 1.',
        ]);
        // Why: for the kiosk it is no file of a loft at all.
        expect(kindOfFile(name)).toBeNull();
      }
      printed.length = 0;
      expect(await runLint([folder])).toBe(1);
      expect(printed.at(-1)).toBe('Files checked: 4. Findings: 4.');
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('prints file, line and reason of each finding, and a count', async () => {
    const file = join(root, 'tests/loft/broken/hold-unknown-class.yaml');
    expect(await runLint([file])).toBe(1);
    expect(printed).toEqual([
      `${file}:125: "inspectorClass": "boss" is unknown. Use one of: in-process, closing, final.`,
      'Files checked: 1. Findings: 1.',
    ]);
  });

  it('looks through a folder of procedures', async () => {
    expect(await runLint([join(root, 'tests/loft/broken')])).toBe(1);
    expect(printed.length).toBeGreaterThan(50);
  });

  it('checks references in a loft folder', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'loft-'));
    try {
      writeFileSync(join(folder, 'loft.yaml'), 'name: Alone\n');
      expect(await runLint([folder])).toBe(1);
      expect(printed.join('\n')).toContain('people.yaml is missing');
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('does not call an empty folder clean', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'loft-'));
    try {
      expect(await runLint([folder])).toBe(1);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('says when there is nothing to read', async () => {
    expect(await runLint([])).toBe(2);
    expect(await runLint([join(root, 'no-such-folder')])).toBe(2);
    expect(printed.join('\n')).toContain('cannot be read');
  });
});
