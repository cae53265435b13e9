/** The scan bench: what counts as read, missed and wrongly read, and its whole way over files. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { run } from '../../bench/scan';
import { parseTruth, scoreOf, scoreRow } from '../../bench/scan-score';
import type { Score } from '../../bench/scan-score';
import { emptyPicture, labelPicture } from '../../scan/pictures';
import { encodePng } from '../../scan/png';

const base64 = (text: string): string => Buffer.from(text, 'utf8').toString('base64');
const truth = (payload: string) => ({ file: 'a.png', symbology: 'x', payload: Buffer.from(payload, 'utf8') });

describe('what counts as read', () => {
  it.each([
    ['QC-204-118', 'QC-204-118'],
    ['0109501101530003', ']C10109501101530003'],
    [']C10109501101530003', ']C10109501101530003'],
    ['\u001d0109501101530003', ']d20109501101530003'],
    ['(01)09501101530003(21)AB', ']d2010950110153000321AB'],
    ['010950110153000310B7\u001d21AB', ']d2010950110153000310B7\u001d21AB'],
    ['[)>\u001e06\u001dSQC-1\u001e\u0004', '[)>\u001e06\u001dSQC-1\u001e\u0004'],
    ['é', 'é'],
  ])('%j is %j, and told as the truth writes it', (payload, read) => {
    expect(scoreRow(truth(payload), read, 1)).toMatchObject({ verdict: 'read', read: base64(payload) });
  });

  it.each([
    ['QC-204-118', 'QC-204-119'],
    ['QC-204-118', 'QC-204-118 '],
    ['QC-204-118', ''],
    ['010950110153000310B721AB', ']d2010950110153000310B7\u001d21AB'],
    // Plain data are not GS1 data, whatever they look like.
    ['(01)09501101530003', '0109501101530003'],
  ])('%j read as %j is a wrong reading', (payload, read) => {
    expect(scoreRow(truth(payload), read, 1).verdict).toBe('misread');
  });

  it('nothing read is missed', () => {
    expect(scoreRow(truth('QC-204-118'), null, 1)).toMatchObject({ verdict: 'missed', read: null });
  });

  it('adds up', () => {
    const rows = [scoreRow(truth('A'), 'A', 1), scoreRow(truth('A'), 'B', 3), scoreRow(truth('A'), null, 2)];
    expect(scoreOf(rows)).toMatchObject({
      ...{ frames: 3, read: 1, missed: 1, misread: 1, msPerFrame: { p50: 2, p95: 3 } },
      bySymbology: { x: { frames: 3, read: 1, missed: 1, misread: 1 } },
    });
  });

  it('the truth may have empty lines, and nothing else that is not whole', () => {
    const line = JSON.stringify({ file: 'a.png', symbology: 'qr', payload: base64('A') });
    expect(parseTruth(`${line}\n\n`)).toEqual([{ file: 'a.png', symbology: 'qr', payload: Buffer.from('A') }]);
    expect(() => parseTruth('{"file":"a.png"}')).toThrow('line 1 of truth.jsonl');
  });
});

describe('the bench over files', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'frames-'));
    vi.spyOn(console, 'log').mockImplementation(() => undefined);
    vi.spyOn(console, 'error').mockImplementation(() => undefined);
  });
  afterEach(() => {
    rmSync(folder, { recursive: true });
    vi.restoreAllMocks();
  });

  it('reads, misses, and writes what it found', async () => {
    const small = { width: 640, height: 480, scale: 2.5 } as const;
    const frames = [
      ['a.png', 'code128', 'QC-204-118', await labelPicture({ ...small, payload: 'QC-204-118', symbology: 'code128' })],
      [
        'b.png',
        'gs1',
        '0109501101530003',
        await labelPicture({ ...small, payload: ']d20109501101530003', symbology: 'dataMatrix' }),
      ],
      ['c.png', 'qr', 'lost', await emptyPicture(3, { width: 320, height: 240 })],
    ] as const;
    const lines = frames.map(([file, symbology, payload, pixels]) => {
      writeFileSync(join(folder, file), encodePng(pixels));
      return JSON.stringify({ file, symbology, payload: base64(payload) });
    });
    writeFileSync(join(folder, 'truth.jsonl'), lines.join('\n'));
    const out = join(folder, 'out.json');
    expect(await run(['--frames', folder, '--json', out])).toBe(0);
    const score = JSON.parse(readFileSync(out, 'utf8')) as Score;
    expect(score).toMatchObject({ frames: 3, read: 2, missed: 1, misread: 0 });
    expect(score.rows).toEqual([
      { file: 'a.png', read: base64('QC-204-118'), verdict: 'read' },
      { file: 'b.png', read: base64('0109501101530003'), verdict: 'read' },
      { file: 'c.png', read: null, verdict: 'missed' },
    ]);
    expect(Object.keys(score.bySymbology)).toEqual(['code128', 'gs1', 'qr']);
  });

  it.each([
    ['no folder', []],
    ['a folder without truth', ['--frames', '.']],
    ['an unknown option', ['--wrong']],
  ])('ends with 2 for %s', async (_name, args) => {
    const inFolder = args.map((arg) => (arg === '.' ? folder : arg));
    expect(await run(inFolder)).toBe(2);
  });

  it('ends with 2 for frames that are none, and for no frames', async () => {
    writeFileSync(join(folder, 'truth.jsonl'), JSON.stringify({ file: 'a.png', symbology: 'qr', payload: '' }));
    writeFileSync(join(folder, 'a.png'), 'no picture');
    expect(await run(['--frames', folder])).toBe(2);
    writeFileSync(join(folder, 'truth.jsonl'), '');
    expect(await run(['--frames', folder])).toBe(2);
  });
});
