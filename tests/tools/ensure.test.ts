/** Making sure: what is missing is noticed, what is there is left alone. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { findChromium } from '../../src/tools/chromium.mjs';
import { ensureChromium, ensureDependencies, ensureNode } from '../../src/tools/ensure.mjs';
import { hashOf, whatIsNotInstalled } from '../../src/tools/ensure.mjs';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'stowcall-ensure-'));
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(root, { recursive: true });
});

describe('Node', () => {
  it.each(['20.19.0', '20.20.2', '22.0.0', '24.3.1'])('%s will do', (version) => {
    expect(() => ensureNode(version)).not.toThrow();
  });
  it.each(['18.20.4', '20.18.3', '20.9.0', '16.0.0'])('%s is too old, and the sentence says what to do', (version) => {
    expect(() => ensureNode(version)).toThrow(`This is Node ${version}; Stowcall needs Node 20.19 or later.`);
  });
});

/** What a program imports as it starts, files and packages, however far away. */
function importsOf(file: string, found = new Set<string>()): ReadonlySet<string> {
  for (const [, name = ''] of readFileSync(file, 'utf8').matchAll(/^(?:import|export)\s[^;]*?from\s+'([^']+)'/gm)) {
    const target = name.startsWith('.') ? join(dirname(file), name) : name;
    if (found.has(target)) continue;
    found.add(target);
    if (name.startsWith('.')) importsOf(target, found);
  }
  return found;
}

describe('a fresh clone', () => {
  it.each(['start', 'test', 'kiosk'])('has no package yet, and %s needs none to begin', (program) => {
    const imports = [...importsOf(join(import.meta.dirname, `../../src/tools/${program}.mjs`))];
    expect(imports.filter((name) => name.endsWith('ensure.mjs'))).toHaveLength(1);
    expect(imports.filter((name) => !name.startsWith('node:') && !name.startsWith('/'))).toEqual([]);
  });
});

describe('packages', () => {
  const lock = (packages: Record<string, object>) => JSON.stringify({ packages: { '': {}, ...packages } });
  const write = (wanted: Record<string, object>, installed: Record<string, object> | null) => {
    writeFileSync(join(root, 'package-lock.json'), lock(wanted));
    if (installed === null) return;
    mkdirSync(join(root, 'node_modules'));
    writeFileSync(join(root, 'node_modules/.package-lock.json'), lock(installed));
  };
  const a = { 'node_modules/a': { version: '1.0.0', integrity: 'sha512-a' } };

  it.each([
    ['none at all', a, null, 'there are none yet'],
    ['the same', a, a, null],
    ['one missing', a, {}, 'a is missing'],
    ['another version', a, { 'node_modules/a': { version: '1.0.1', integrity: 'sha512-a' } }, 'not version 1.0.0'],
    ['other bytes', a, { 'node_modules/a': { version: '1.0.0', integrity: 'sha512-b' } }, 'not version 1.0.0'],
    ['one for another machine', { ...a, 'node_modules/mac': { version: '1.0.0', optional: true } }, a, null],
  ] as const)('%s', (...[, wanted, installed, why]) => {
    write(wanted, installed);
    const found = whatIsNotInstalled(root);
    if (why === null) expect(found).toBeNull();
    else expect(found).toContain(why);
  });

  it('those that are there are not installed again', () => {
    write(a, a);
    vi.stubEnv('PATH', root);
    expect(() => ensureDependencies(root)).not.toThrow();
  });

  it('a failed install stops with what to do', () => {
    write(a, null);
    vi.stubEnv('PATH', root);
    vi.spyOn(console, 'log').mockImplementation(() => undefined);
    expect(() => ensureDependencies(root)).toThrow('The packages could not be installed.');
  });
});

describe('the hash over the sources', () => {
  beforeEach(() => {
    mkdirSync(join(root, 'src/inner'), { recursive: true });
    writeFileSync(join(root, 'src/a.ts'), 'a');
    writeFileSync(join(root, 'src/inner/b.ts'), 'b');
  });
  const hash = () => hashOf(root, ['src', 'missing']);

  it('is the same for the same files', () => {
    const copy = `${root}-copy`;
    cpSync(root, copy, { recursive: true });
    expect(hashOf(copy, ['src', 'missing'])).toBe(hash());
    rmSync(copy, { recursive: true });
  });

  it.each([
    ['a changed file', () => writeFileSync(join(root, 'src/inner/b.ts'), 'c')],
    ['a new file', () => writeFileSync(join(root, 'src/c.ts'), '')],
    ['a file that moved', () => cpSync(join(root, 'src/a.ts'), join(root, 'src/inner/a.ts'))],
    ['a removed file', () => rmSync(join(root, 'src/a.ts'))],
    ['a missing path that appears', () => writeFileSync(join(root, 'missing'), '')],
  ])('%s changes it', (_, change) => {
    const before = hash();
    change();
    expect(hash()).not.toBe(before);
  });
});

describe('Chromium', () => {
  const program = (name: string, script: string) => {
    writeFileSync(join(root, name), `#!/bin/sh\n${script}\n`, { mode: 0o755 });
    return join(root, name);
  };

  it('one that is named is taken before the usual ones', () => {
    const named = program('my-browser', 'echo 1');
    vi.stubEnv('STOWCALL_CHROMIUM', named);
    expect(findChromium()).toBe(named);
    expect(ensureChromium()).toBe(named);
  });

  it('one that is named but is not there is not replaced by another', () => {
    vi.stubEnv('STOWCALL_CHROMIUM', join(root, 'nothing'));
    expect(findChromium()).toBeNull();
    expect(() => ensureChromium()).toThrow('STOWCALL_CHROMIUM');
  });

  it('one that does not start does not count', () => {
    vi.stubEnv('STOWCALL_CHROMIUM', program('broken', 'exit 1'));
    expect(() => ensureChromium()).toThrow('does not start');
  });

  it('one on the PATH is found, a folder of that name is not', () => {
    vi.stubEnv('STOWCALL_CHROMIUM', '');
    mkdirSync(join(root, 'first/chromium'), { recursive: true });
    mkdirSync(join(root, 'second'));
    symlinkSync(program('real', 'echo 1'), join(root, 'second/chromium'));
    vi.stubEnv('PATH', `${join(root, 'first')}:${join(root, 'second')}`);
    expect(findChromium()).toBe(join(root, 'second/chromium'));
  });
});
