/** The acoustic model's fetching: what it takes out of an archive, and what it refuses. */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { featureSettings, fetchModel, readTar } from '../../src/tools/fetch-model.mjs';

/**
 * One ustar entry (POSIX.1-1988: name at 0, size in octal at 124, sum of the header's bytes at 148, type at 156, magic
 * at 257, prefix at 345). The sum is taken with blanks in its own place.
 */
function entry(name: string, text: string, { type = '0', prefix = '' } = {}): Buffer {
  const head = Buffer.alloc(512);
  head.write(name, 0);
  head.write(text.length.toString(8).padStart(11, '0'), 124);
  head.write(type, 156);
  head.write('ustar', 257);
  head.write(prefix, 345);
  head.fill(' ', 148, 156);
  const sum = head.reduce((all, byte) => all + byte, 0);
  head.write(`${sum.toString(8).padStart(6, '0')}\0 `, 148);
  const body = Buffer.alloc(Math.ceil(text.length / 512) * 512);
  body.write(text, 0);
  return Buffer.concat([head, body]);
}

async function filesOf(archive: Buffer): Promise<[name: string, length: number][]> {
  const files: [string, number][] = [];
  for await (const { name, bytes } of readTar(archive)) files.push([name, bytes.length]);
  return files;
}

describe('reading an archive', () => {
  it('gives every regular file with its bytes, joins a long name, and leaves folders and links out', async () => {
    const tar = Buffer.concat([
      entry('a/', '', { type: '5' }),
      entry('a/one', 'x'.repeat(513)),
      entry('link', '', { type: '2' }),
      entry('two', 'yes', { prefix: 'very/long' }),
      Buffer.alloc(1024),
    ]);
    expect(await filesOf(tar)).toEqual([
      ['a/one', 513],
      ['very/long/two', 3],
    ]);
  });

  it('refuses an archive that ends inside a file', async () => {
    const tar = entry('one', 'x'.repeat(2000)).subarray(0, 1024);
    await expect(filesOf(tar)).rejects.toThrow('cut short');
  });

  it('refuses a header whose sum is wrong', async () => {
    const tar = Buffer.concat([entry('one', 'x'), Buffer.alloc(1024)]);
    tar.write('b', 0);
    await expect(filesOf(tar)).rejects.toThrow('damaged');
  });
});

describe('settings of the front end', () => {
  it('turns lines into numbers, booleans and words, and drops what the engine does not know', () => {
    const params =
      '-lowerf 130\n-varnorm no\n-feat 1s_c_d_dd\n-svspec 0-12/13-25\n-model ptm\n-agc none\n-cmn current\n';
    expect(featureSettings(params)).toEqual({
      lowerf: 130,
      varnorm: false,
      feat: '1s_c_d_dd',
      svspec: '0-12/13-25',
      cmn: 'current',
    });
  });
});

describe('when the model cannot be had', () => {
  const path = process.env['PATH'];
  afterEach(() => {
    process.env['PATH'] = path;
    vi.restoreAllMocks();
  });

  it('says so in one sentence, answers with the 8 kHz model and leaves nothing half made behind', async () => {
    const root = await mkdtemp(join(tmpdir(), 'stowcall-test-'));
    process.env['PATH'] = root;
    const said = vi.spyOn(console, 'warn').mockImplementation(() => undefined);
    const model = await fetchModel(root);
    expect(model).toEqual({ folder: join(root, 'node_modules/soundswallower/model/en-us'), kind: '8k' });
    expect(said.mock.calls).toHaveLength(1);
    expect(said.mock.calls[0]?.[0]).toContain('8 kHz');
    await expect(readFile(join(root, '.stowcall/model/en-us-16k/mdef'))).rejects.toThrow();
    await rm(root, { recursive: true });
  });
});
