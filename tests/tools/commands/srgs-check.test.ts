/** The conformance runner itself: it must be able to fail. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { decodeGrammar } from '../../../src/tools/commands/grammar-files';
import { checkRow, readRows, runSrgsCheck } from '../../../src/tools/commands/srgs-check';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'srgs-'));
  mkdirSync(join(folder, 'in'));
  const head = '#ABNF 1.0;\nlanguage en;\n';
  writeFileSync(join(folder, 'in', 'a.gram'), `${head}root $r;\n$r = stow $x; $x = one | two; public $p = tie;`);
  writeFileSync(join(folder, 'in', 'rootless.gram'), `${head}public $r = $<a.gram>; $hidden = x;`);
  writeFileSync(join(folder, 'in', 'out.gram'), `${head}public $r = $<../secret.gram#s>;`);
  writeFileSync(join(folder, 'secret.gram'), `${head}public $s = secret;`);
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  vi.restoreAllMocks();
});

const row = (file: string, words: string, out: string) => checkRow(join(folder, 'in'), { file, in: words, out }).passed;

describe('a row', () => {
  it.each([
    ['the right parse', 'a.gram', 'stow one', '$r["stow",$x["one"]]', true],
    ['another parse', 'a.gram', 'stow one', '$r["stow","one"]', false],
    ['accepted but to be refused', 'a.gram', 'stow one', 'REJECT', false],
    ['refused and to be refused', 'a.gram', 'stow three', 'REJECT', true],
    ['refused but to be accepted', 'a.gram', 'stow three', '$r["stow",$x["three"]]', false],
    ['a public rule beside the root', 'a.gram', 'tie', '$p["tie"]', true],
    ['a private rule alone', 'rootless.gram', 'x', '$hidden["x"]', false],
    ['no root: every public rule', 'rootless.gram', 'stow two', '$r[$<a.gram>["stow",$x["two"]]]', true],
    ['a grammar that is not there', 'none.gram', 'x', 'REJECT', false],
    ['a grammar outside the folder', 'out.gram', 'secret', 'REJECT', true],
  ])('%s', (...[, file, words, out, passed]) => {
    expect(row(file, words, out)).toBe(passed);
  });
});

describe('bytes', () => {
  const text = '#ABNF 1.0;\n// é';
  it.each([
    ['UTF-8', Buffer.from(text), text],
    ['UTF-8 with a mark', Buffer.from(`\uFEFF${text}`), text],
    ['UTF-16 with a mark', Buffer.from(`\uFEFF${text}`, 'utf16le'), text],
    ['ISO-8859-1 by the header', Buffer.from('#ABNF 1.0 ISO-8859-1;\n// é', 'latin1'), '#ABNF 1.0 ISO-8859-1;\n// é'],
    ['ISO-8859-1 without a word', Buffer.from(text, 'latin1'), text],
  ])('%s', (...[, bytes, expected]) => {
    expect(decodeGrammar(bytes)).toEqual({ ok: true, value: expected });
  });

  it.each([
    ['an unknown encoding', Buffer.from('#ABNF 1.0 no-such;\n')],
    ['bytes that are not UTF-8 as the header says', Buffer.from('#ABNF 1.0 UTF-8;\n// é', 'latin1')],
  ])('refuses %s', (...[, bytes]) => {
    expect(decodeGrammar(bytes)).toMatchObject({ ok: false, reason: 'bad-encoding' });
  });
});

describe('the program', () => {
  it('counts, and fails when a row fails', async () => {
    const log = vi.spyOn(console, 'log').mockImplementation(() => undefined);
    const checks = join(folder, 'checks.jsonl');
    const rows = [
      { file: 'a.gram', in: 'stow one', out: '$r["stow",$x["one"]]' },
      { file: 'a.gram', in: 'stow', out: '$r["stow"]' },
    ];
    writeFileSync(checks, rows.map((one) => JSON.stringify(one)).join('\n'));
    expect(await runSrgsCheck(['--grammars', join(folder, 'in'), '--checks', checks])).toBe(1);
    expect(log).toHaveBeenLastCalledWith('1 passed, 1 failed');
    writeFileSync(checks, `${JSON.stringify(rows[0])}\n`);
    expect(await runSrgsCheck(['--grammars', join(folder, 'in'), '--checks', checks])).toBe(0);
    expect(log).toHaveBeenLastCalledWith('1 passed, 0 failed');
  });

  it('says how it is called', async () => {
    const error = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    expect(await runSrgsCheck([])).toBe(2);
    expect(error.mock.calls[0]?.[0]).toContain('--grammars DIR');
  });

  it('does not skip a row that it cannot read', () => {
    const checks = join(folder, 'bad.jsonl');
    writeFileSync(checks, '{"file": "a.gram"}\n');
    expect(() => readRows(checks)).toThrow('bad.jsonl:1');
  });
});
