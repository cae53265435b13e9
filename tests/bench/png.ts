/** Reads PNG files for the scan bench: every colour type and depth of the PNG specification that is not interlaced. */
import { inflateSync } from 'node:zlib';
import { ok, refused } from '../../src/domain/result';
import type { Result } from '../../src/domain/result';
import type { Frame } from '../../src/scan/camera/frame';

export type PngFault = 'png-broken' | 'png-unusual';

interface Header {
  readonly width: number;
  readonly height: number;
  readonly depth: number;
  readonly colour: number;
  readonly interlace: number;
}

interface Chunks {
  readonly header: Header;
  readonly palette: Uint8Array;
  readonly data: Buffer;
}

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
/** Samples to a pixel for each colour type, and the depths that it may have (PNG specification, table 11.1). */
const COLOURS: Readonly<Record<number, { readonly samples: number; readonly depths: readonly number[] }>> = {
  0: { samples: 1, depths: [1, 2, 4, 8, 16] },
  2: { samples: 3, depths: [8, 16] },
  3: { samples: 1, depths: [1, 2, 4, 8] },
  4: { samples: 2, depths: [8, 16] },
  6: { samples: 4, depths: [8, 16] },
};
/** More than any camera gives: a broken header must not ask for all memory. */
const MOST_PIXELS = 64_000_000;

const broken = (what: string) => refused('png-broken' as const, `The PNG file is broken (${what}). Make it anew.`);

function chunksOf(file: Buffer): Result<Chunks, PngFault> {
  if (!file.subarray(0, 8).equals(SIGNATURE)) return broken('no PNG signature');
  let header: Header | null = null;
  let palette = new Uint8Array();
  const data: Buffer[] = [];
  for (let at = 8; at + 12 <= file.length;) {
    const length = file.readUInt32BE(at);
    const type = file.toString('latin1', at + 4, at + 8);
    const body = file.subarray(at + 8, at + 8 + length);
    if (body.length < length) return broken(`cut off in ${type}`);
    if (type === 'IHDR' && length === 13) {
      const [width, height] = [body.readUInt32BE(0), body.readUInt32BE(4)];
      header = { width, height, depth: body[8] ?? 0, colour: body[9] ?? 0, interlace: body[12] ?? 0 };
    } else if (type === 'PLTE') palette = new Uint8Array(body);
    else if (type === 'IDAT') data.push(body);
    else if (type === 'IEND') break;
    at += length + 12;
  }
  if (header === null || data.length === 0) return broken('no picture in it');
  return ok({ header, palette, data: Buffer.concat(data) });
}

/** Paeth's predictor (PNG specification, 9.4). */
function paeth(left: number, up: number, upLeft: number): number {
  const guess = left + up - upLeft;
  const [toLeft, toUp, toUpLeft] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - upLeft)];
  if (toLeft <= toUp && toLeft <= toUpLeft) return left;
  return toUp <= toUpLeft ? up : upLeft;
}

/** What the filter of a row foretells for a byte from its neighbours (PNG specification, 9.2). */
function foretold(filter: number, left: number, up: number, upLeft: number): number {
  switch (filter) {
    case 1:
      return left;
    case 2:
      return up;
    case 3:
      return (left + up) >> 1;
    default:
      return paeth(left, up, upLeft);
  }
}

/** Undoes the filter of each row, in place; false for a filter that does not exist. */
function unfilter(rows: Uint8Array, rowBytes: number, pixelBytes: number): boolean {
  for (let start = 0; start < rows.length; start += rowBytes + 1) {
    const filter = rows[start] ?? 0;
    if (filter > 4) return false;
    if (filter === 0) continue;
    for (let at = start + 1; at <= start + rowBytes; at += 1) {
      const isFirst = at - start <= pixelBytes;
      const left = isFirst ? 0 : (rows[at - pixelBytes] ?? 0);
      const up = start === 0 ? 0 : (rows[at - rowBytes - 1] ?? 0);
      const upLeft = isFirst || start === 0 ? 0 : (rows[at - rowBytes - 1 - pixelBytes] ?? 0);
      rows[at] = (rows[at] ?? 0) + foretold(filter, left, up, upLeft);
    }
  }
  return true;
}

/** Sample number `index` of a row that begins at `start`, as 8 bits; a palette's indices come as they are. */
function sampleAt(rows: Uint8Array, start: number, index: number, { depth, colour }: Header): number {
  if (depth === 8) return rows[start + index] ?? 0;
  if (depth === 16) return rows[start + index * 2] ?? 0;
  const perByte = 8 / depth;
  const byte = rows[start + Math.floor(index / perByte)] ?? 0;
  const most = 2 ** depth - 1;
  const value = (byte >> (8 - depth - (index % perByte) * depth)) & most;
  return colour === 3 ? value : Math.round((value * 255) / most);
}

function pixelsOf({ header, palette }: Chunks, rows: Uint8Array, samples: number): Frame {
  const { width, height, colour } = header;
  const rowBytes = rows.length / height;
  const isGrey = colour === 0 || colour === 4;
  const rgba = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y += 1) {
    const start = y * rowBytes + 1;
    for (let x = 0; x < width; x += 1) {
      const first = x * samples;
      const to = (y * width + x) * 4;
      const alpha = colour < 4 ? 255 : sampleAt(rows, start, first + samples - 1, header);
      const entry = colour === 3 ? sampleAt(rows, start, first, header) * 3 : 0;
      for (let channel = 0; channel < 3; channel += 1) {
        const own =
          colour === 3 ? palette[entry + channel] : sampleAt(rows, start, first + (isGrey ? 0 : channel), header);
        rgba[to + channel] = 255 + (((own ?? 0) - 255) * alpha) / 255;
      }
      rgba[to + 3] = 255;
    }
  }
  return { width, height, rgba };
}

/** The pixels of a PNG file, on white where it is see-through. */
export function parsePng(file: Buffer): Result<Frame, PngFault> {
  const chunks = chunksOf(file);
  if (!chunks.ok) return chunks;
  const { width, height, depth, colour, interlace } = chunks.value.header;
  const kind = COLOURS[colour];
  if (kind === undefined || !kind.depths.includes(depth)) return broken(`colour type ${colour}, depth ${depth}`);
  if (width === 0 || height === 0 || width * height > MOST_PIXELS) return broken(`${width} by ${height} pixels`);
  if (interlace !== 0) {
    return refused('png-unusual', 'The PNG file is interlaced, which is not read here. Save it without interlacing.');
  }
  const rowBytes = Math.ceil((width * kind.samples * depth) / 8);
  let rows: Uint8Array;
  try {
    rows = inflateSync(chunks.value.data);
  } catch {
    return broken('its picture cannot be unpacked');
  }
  if (rows.length !== (rowBytes + 1) * height) return broken('its picture has another size than its header says');
  if (!unfilter(rows, rowBytes, Math.max(1, (kind.samples * depth) >> 3))) return broken('an unknown row filter');
  return ok(pixelsOf(chunks.value, rows, kind.samples));
}
