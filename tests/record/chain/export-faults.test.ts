/**
 * Each fault of an export alone: the last line is made anew after every change, so that no other check can find it, and
 * the sentence must name the line and the fault.
 */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import {
  CHECKPOINT,
  END,
  EXPORT_FORMAT,
  HEADER,
  makeExportText,
  parseExportText,
  SEAL,
} from '../../../src/record/chain/export-file';
import { exportOf } from '../../fakes/ledger-export';
import { countDraft } from '../../fakes/ledger-facts';

const DRAFTS = [countDraft('pack-1', 5), countDraft('pack-2', 6), countDraft('pack-1', 7)];
const WHOLE = { ...exportOf(DRAFTS, null), checkpoints: ['one\n'], keys: ['loft+0'] };
const PACK = exportOf(DRAFTS, 'pack-1');
const linesOf = (file: typeof PACK): string[] => makeExportText(file).split('\n').slice(0, -1);

/** The lines with a last line that fits them. */
function resealed(lines: readonly string[]): string {
  const content = lines.map((line) => `${line}\n`).join('');
  return `${content}{"sha256":"${createHash('sha256').update(content).digest('hex')}"}\n`;
}

type Change = (content: string[]) => string[];
const swap =
  (line: number, from: string | RegExp, to: string): Change =>
  (content) => {
    const before = content[line - 1] ?? '';
    const after = before.replace(from, to);
    if (after === before) throw new Error(`line ${line} has no ${String(from)}`);
    return content.with(line - 1, after);
  };
const turned =
  (one: number, other: number): Change =>
  (content) =>
    content.with(one - 1, content[other - 1] ?? '').with(other - 1, content[one - 1] ?? '');
const both =
  (...changes: Change[]): Change =>
  (content) =>
    changes.reduce((all, change) => change(all), content);

describe('one fault in a whole journal', () => {
  const SPACED = '": ';
  it.each<[string, Change, string, number, string]>([
    ['a header in other spelling', swap(1, '":', SPACED), 'altered', 1, 'the header is not as we write it'],
    ['a header with a field more', swap(1, '"v":2', '"v":2,"w":1'), 'altered', 1, 'the header is not as we write it'],
    ['a header without a version', swap(1, ',"v":2', ''), 'altered', 1, 'the header is not as we write it'],
    ['a version that is a word', swap(1, '"v":2', '"v":"3"'), 'altered', 1, 'the header is not as we write it'],
    ['an older version', swap(1, '"v":2', '"v":1'), 'altered', 1, 'the header is not as we write it'],
    ['a newer version', swap(1, '"v":2', '"v":3'), 'newer', 1, 'a newer version of the kiosk wrote this file'],
    [
      'a head of more facts',
      swap(1, '"size":3', '"size":4'),
      'altered',
      1,
      'a whole journal has as many facts as its head says',
    ],
    ['a head of another root', swap(1, /"root":"./, '"root":"0'), 'altered', 1, 'the facts do not lead to the root'],
    ['facts in another order', both(turned(2, 3), turned(5, 6)), 'altered', 2, 'fact 0 belongs here'],
    ['seals in another order', turned(5, 6), 'altered', 5, 'it is the seal of another fact'],
    ['a seal in other spelling', swap(5, '":', SPACED), 'altered', 5, 'it is no seal'],
    ['a seal of nothing', swap(5, /.*/, '{}'), 'altered', 5, 'it is no seal'],
    ['a seal that is no JSON', swap(5, /.$/, ''), 'altered', 5, 'it is no seal'],
    ['a seal of another hash', swap(5, /"leaf":"../, '"leaf":"00'), 'altered', 2, 'its hash is another one'],
    ['a proof that a whole journal has not', swap(5, '"seq"', '"path":[],"seq"'), 'altered', 5, 'its proof is missing'],
    ['a fact altered', swap(3, '"count":6', '"count":7'), 'altered', 3, 'its hash is another one'],
    ['a fact of a later version', swap(3, '"v":1', '"v":2'), 'newer', 3, 'a newer version of the kiosk wrote it'],
    ['a fact that is none', swap(3, '"count":6', '"count":-6'), 'altered', 3, 'body.count'],
    ['a checkpoint in other spelling', swap(8, '":', SPACED), 'altered', 8, 'it is no checkpoint'],
    ['a checkpoint of nothing', swap(8, /.*/, '{"checkpoint":""}'), 'altered', 8, 'it is no checkpoint'],
    ['a line that is no checkpoint', swap(8, /.*/, 'x'), 'altered', 8, 'it is no checkpoint'],
    ['a line more', (all) => [...all, '{}'], 'cut-short', 10, 'the file has 10 lines where 9 belong'],
    ['a line less', (all) => all.slice(0, -1), 'cut-short', 8, 'the file has 8 lines where 9 belong'],
  ])('%s', (...[, change, reason, line, why]) => {
    const content = linesOf(WHOLE).slice(0, -1);
    expect(parseExportText(resealed(content))).toEqual({ ok: true, value: WHOLE });
    const result = parseExportText(resealed(change(content)));
    expect(result).toMatchObject({ ok: false, reason });
    if (result.ok) return;
    expect(result.detail.startsWith(`Line ${line} of the export: `)).toBe(true);
    expect(result.detail).toContain(why);
    expect(result.detail).toMatch(/\. Do not rely on this file; ask for it again\.$/);
  });

  it('a last line that does not fit', () => {
    const lines = linesOf(WHOLE);
    const text = [...lines.slice(0, -1), `{"sha256":"${'0'.repeat(64)}"}`, ''].join('\n');
    expect(parseExportText(text)).toMatchObject({
      reason: 'altered',
      detail: expect.stringMatching(/^Line 9 of the export: it is not the SHA-256 of the lines before it\./) as string,
    });
  });

  it('a last line without its end', () => {
    expect(parseExportText(makeExportText(WHOLE).slice(0, -1))).toMatchObject({
      reason: 'cut-short',
      detail: expect.stringMatching(/^Line 9 of the export: it has no end; the file was cut short\./) as string,
    });
  });

  it.each(['null\n', '[]\n', '7\n', 'x\n', '{}\n', '{"format":"stowcall"}\n', '"stowcall-export"\n'])(
    '%j is not an export at all',
    (text) => {
      expect(parseExportText(text)).toEqual({
        ok: false,
        reason: 'not-an-export',
        detail: 'This file is not an export of a journal; choose another one.',
      });
    },
  );
});

describe('one fault in the export of a pack', () => {
  it.each<[string, Change, number, string]>([
    ['a pack of another name', swap(1, '"pack":"pack-1"', '"pack":"pack-3"'), 2, 'it belongs to another pack'],
    ['its facts in another order', both(turned(2, 3), turned(4, 5)), 3, 'fact 0 follows fact 2'],
    ['the same fact twice', both((all) => all.with(2, all[1] ?? '').with(4, all[3] ?? '')), 3, 'fact 0 follows fact 0'],
    ['no proof', swap(4, /"path":\[.*\],/, ''), 4, 'its proof is missing'],
    ['an empty proof', swap(4, /"path":\[.*\]/, '"path":[]'), 4, 'its proof fails'],
    ['another proof', swap(4, /"path":\["../, '"path":["00'), 4, 'its proof fails'],
    ['another root', swap(1, /"root":"../, '"root":"00'), 4, 'its proof fails'],
    ['a head beyond what the proofs lead to', swap(1, '"size":3', '"size":9'), 4, 'its proof fails'],
    ['a fact beyond its head', swap(1, '"size":3', '"size":2'), 4, 'its proof fails'],
  ])('%s', (...[, change, line, why]) => {
    const content = linesOf(PACK).slice(0, -1);
    expect(parseExportText(resealed(content))).toEqual({ ok: true, value: PACK });
    const result = parseExportText(resealed(change(content)));
    expect(result).toMatchObject({ ok: false, reason: 'altered' });
    expect(result.ok ? '' : result.detail).toContain(`Line ${line} of the export: ${why}`);
  });
});

describe('the bounds of an export', () => {
  const hash = 'a'.repeat(64);
  const header = {
    format: 'stowcall-export',
    v: EXPORT_FORMAT,
    pack: null,
    facts: 0,
    checkpoints: 0,
    head: { size: 0, root: hash },
    keys: [],
  };
  const many = (count: number, one: unknown): unknown[] => Array.from({ length: count }, () => one);

  it.each<[string, object, boolean]>([
    ['nothing in it', {}, true],
    ['a pack of 200 letters', { pack: 'p'.repeat(200) }, true],
    ['a pack of 201 letters', { pack: 'p'.repeat(201) }, false],
    ['a pack without a name', { pack: '' }, false],
    ['fewer than no facts', { facts: -1 }, false],
    ['half a fact', { facts: 0.5 }, false],
    ['fewer than no checkpoints', { checkpoints: -1 }, false],
    ['a million checkpoints', { checkpoints: 1_000_000 }, true],
    ['one more', { checkpoints: 1_000_001 }, false],
    ['a head of fewer than no facts', { head: { size: -1, root: hash } }, false],
    ['a root in capitals', { head: { size: 0, root: 'A'.repeat(64) } }, false],
    ['a root of 63 digits', { head: { size: 0, root: 'a'.repeat(63) } }, false],
    ['a root of 65 digits', { head: { size: 0, root: 'a'.repeat(65) } }, false],
    ['a root with a line before it', { head: { size: 0, root: `x\n${hash}` } }, false],
    ['a head with more to say', { head: { size: 0, root: hash, more: 1 } }, false],
    ['another format', { format: 'stowcall' }, false],
    ['a hundred keys of 600 letters', { keys: many(100, 'k'.repeat(600)) }, true],
    ['101 keys', { keys: many(101, 'k') }, false],
    ['a key of 601 letters', { keys: ['k'.repeat(601)] }, false],
    ['a key of none', { keys: [''] }, false],
    ['a field that no reader knows', { more: 1 }, false],
  ])('header: %s', (_, change, expected) => {
    expect(HEADER.safeParse({ ...header, ...change }).success).toBe(expected);
  });

  it.each<[string, object, boolean]>([
    ['without a proof', {}, true],
    ['with a proof for 2^53 facts', { path: many(53, hash) }, true],
    ['with a longer one', { path: many(54, hash) }, false],
    ['with a proof of no hashes', { path: ['x'] }, false],
    ['before the first', { seq: -1 }, false],
    ['of half a fact', { seq: 0.5 }, false],
    ['of no hash', { leaf: 'x' }, false],
    ['with more to say', { more: 1 }, false],
  ])('seal: %s', (_, change, expected) => {
    expect(SEAL.safeParse({ seq: 0, leaf: hash, ...change }).success).toBe(expected);
  });

  it.each<[string, boolean]>([
    ['', false],
    ['x', true],
    ['x'.repeat(20_000), true],
    ['x'.repeat(20_001), false],
  ])('a checkpoint of as many letters (case %#)', (checkpoint, expected) => {
    expect(CHECKPOINT.safeParse({ checkpoint }).success).toBe(expected);
    expect(CHECKPOINT.safeParse({ checkpoint, more: 1 }).success).toBe(false);
  });

  it('the last line is a digest and nothing else', () => {
    expect(END.safeParse({ sha256: hash }).success).toBe(true);
    expect(END.safeParse({ sha256: 'x' }).success).toBe(false);
    expect(END.safeParse({}).success).toBe(false);
    expect(END.safeParse({ sha256: hash, more: 1 }).success).toBe(false);
  });

  it('a stored fact of two lines is a broken assumption', () => {
    const [first] = PACK.facts;
    if (first === undefined) throw new Error('no fact');
    const facts = [{ ...first, bytes: new TextEncoder().encode('{\n}') }];
    expect(() => makeExportText({ ...PACK, facts })).toThrow('a stored fact is one line of text');
    expect(() => makeExportText({ ...PACK, facts: [{ ...first, bytes: Uint8Array.of(0x80) }] })).toThrow(
      'a stored fact is one line of text',
    );
    expect(() => makeExportText({ ...PACK, keys: ['\ud83d'] })).toThrow('the lines of an export are plain values');
  });
});
