/** Reading PNG files: colour types, depths and filters of the PNG specification (3rd edition), and every refusal. */
import { crc32, deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { parsePng } from '../../bench/png';
import { encodePng } from '../../scan/png';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const ends = Buffer.alloc(8);
  ends.writeUInt32BE(data.length, 0);
  ends.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([ends.subarray(0, 4), body, ends.subarray(4)]);
}

interface Made {
  readonly width: number;
  readonly height: number;
  readonly depth: number;
  readonly colour: number;
  readonly interlace?: number;
  readonly palette?: readonly number[];
  /** Filter byte and data of each row. */
  readonly rows: readonly (readonly number[])[];
}

function pngOf({ width, height, depth, colour, interlace = 0, palette, rows }: Made): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([depth, colour, 0, 0, interlace], 8);
  const packed = deflateSync(Buffer.from(rows.flat()));
  // The data of a picture may be cut into any pieces.
  const pieces = [packed.subarray(0, 3), packed.subarray(3)].map((piece) => chunk('IDAT', piece));
  const more = palette === undefined ? [] : [chunk('PLTE', Buffer.from(palette))];
  return Buffer.concat([SIGNATURE, chunk('IHDR', header), ...more, ...pieces, chunk('IEND', Buffer.alloc(0))]);
}

/** Red, green and blue of each pixel. */
function coloursOf(file: Buffer): string[] | string {
  const frame = parsePng(file);
  if (!frame.ok) return frame.reason;
  const { rgba } = frame.value;
  return Array.from({ length: rgba.length / 4 }, (_, at) => [...rgba.subarray(at * 4, at * 4 + 3)].join(','));
}

describe('PNG files', () => {
  const two = { width: 2, height: 1 };
  it.each<[string, Made, string[]]>([
    ['grey, 8 bits', { ...two, depth: 8, colour: 0, rows: [[0, 10, 200]] }, ['10,10,10', '200,200,200']],
    ['grey, 16 bits', { ...two, depth: 16, colour: 0, rows: [[0, 10, 99, 200, 99]] }, ['10,10,10', '200,200,200']],
    ['grey, 1 bit', { ...two, depth: 1, colour: 0, rows: [[0, 0b0100_0000]] }, ['0,0,0', '255,255,255']],
    ['grey, 2 bits', { ...two, depth: 2, colour: 0, rows: [[0, 0b0111_0000]] }, ['85,85,85', '255,255,255']],
    ['grey, 4 bits', { ...two, depth: 4, colour: 0, rows: [[0, 0x1f]] }, ['17,17,17', '255,255,255']],
    ['colour', { ...two, depth: 8, colour: 2, rows: [[0, 1, 2, 3, 4, 5, 6]] }, ['1,2,3', '4,5,6']],
    [
      'colour, 16 bits',
      { ...two, depth: 16, colour: 2, rows: [[0, 1, 9, 2, 9, 3, 9, 4, 9, 5, 9, 6, 9]] },
      ['1,2,3', '4,5,6'],
    ],
    [
      'palette, 8 bits',
      { ...two, depth: 8, colour: 3, palette: [9, 8, 7, 6, 5, 4], rows: [[0, 1, 0]] },
      ['6,5,4', '9,8,7'],
    ],
    [
      'palette, 1 bit',
      { ...two, depth: 1, colour: 3, palette: [9, 8, 7, 6, 5, 4], rows: [[0, 0b1000_0000]] },
      ['6,5,4', '9,8,7'],
    ],
    [
      'grey on white where see-through',
      { ...two, depth: 8, colour: 4, rows: [[0, 10, 255, 0, 0]] },
      ['10,10,10', '255,255,255'],
    ],
    [
      'colour with alpha',
      { ...two, depth: 8, colour: 6, rows: [[0, 1, 2, 3, 255, 0, 0, 0, 0]] },
      ['1,2,3', '255,255,255'],
    ],
    [
      'interlaced: each pass has rows of its own',
      {
        ...two,
        depth: 8,
        colour: 0,
        interlace: 1,
        rows: [
          [0, 10],
          [0, 200],
        ],
      },
      ['10,10,10', '200,200,200'],
    ],
  ])('%s', (_name, made, colours) => {
    expect(coloursOf(pngOf(made))).toEqual(colours);
  });

  it('every row filter: sub, up, average, Paeth, and rows that overflow a byte', () => {
    const rows = [
      [1, 250, 10, 10], // 250, 4, 14
      [2, 1, 1, 1], // 251, 5, 15
      [3, 1, 1, 1], // 126, 66, 41
      [4, 1, 1, 1], // 127, 67, 42: Paeth takes up, the nearest
    ];
    const read = coloursOf(pngOf({ width: 3, height: 4, depth: 8, colour: 0, rows }));
    expect((read as string[]).map((colour) => Number(colour.split(',')[0]))).toEqual([
      ...[250, 4, 14, 251, 5, 15],
      ...[126, 66, 41, 127, 67, 42],
    ]);
  });

  it('come back as the tests write them', () => {
    const rgba = Uint8ClampedArray.from({ length: 5 * 3 * 4 }, (_, at) => (at % 4 === 3 ? 255 : (at * 37) % 256));
    const frame = parsePng(Buffer.from(encodePng({ width: 5, height: 3, rgba })));
    expect(frame).toEqual({ ok: true, value: { width: 5, height: 3, rgba } });
  });

  const sound = { width: 2, height: 1, depth: 8, colour: 0, rows: [[0, 1, 2]] };
  it.each<[string, Buffer, string]>([
    ['no PNG at all', Buffer.from('GIF89a'), 'png-broken'],
    ['nothing', Buffer.alloc(0), 'png-broken'],
    ['cut off', pngOf(sound).subarray(0, 50), 'png-broken'],
    ['a depth that the colour type cannot have', pngOf({ ...sound, depth: 4, colour: 2 }), 'png-broken'],
    ['a colour type that does not exist', pngOf({ ...sound, colour: 5 }), 'png-broken'],
    ['no pixels', pngOf({ ...sound, width: 0 }), 'png-broken'],
    ['more pixels than any camera', pngOf({ ...sound, width: 2 ** 31, height: 2 }), 'png-broken'],
    ['fewer data than pixels', pngOf({ ...sound, height: 2 }), 'png-broken'],
    ['a filter that does not exist', pngOf({ ...sound, rows: [[5, 1, 2]] }), 'png-broken'],
    ['interlaced in a way that does not exist', pngOf({ ...sound, interlace: 2 }), 'png-broken'],
    ['interlaced, with fewer passes than it has', pngOf({ ...sound, interlace: 1, rows: [[0, 1]] }), 'png-broken'],
  ])('refuses %s', (_name, file, reason) => {
    expect(parsePng(file)).toMatchObject({ ok: false, reason });
  });
});
