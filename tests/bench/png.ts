/** Reads PNG files for the scan bench, as the colours that a camera would have given. */
import { decode, type DecodedPng } from 'fast-png';
import { ok, refused } from '../../src/domain/result';
import type { Result } from '../../src/domain/result';
import type { Frame } from '../../src/scan/camera/frame';

/** The depths that each colour type may have (PNG specification, table 11.1), which the library does not look at. */
const DEPTHS: Readonly<Record<number, readonly number[]>> = {
  0: [1, 2, 4, 8, 16],
  2: [8, 16],
  3: [1, 2, 4, 8],
  4: [8, 16],
  6: [8, 16],
};
/** More than any camera gives: a broken header must not ask for all memory. */
const MOST_PIXELS = 64_000_000;
/** Signature, and the header that must come first. */
const HEADER_BYTES = 33;

const broken = (what: string) => refused('png-broken' as const, `The PNG file is broken (${what}). Make it anew.`);

/** The pixels of a PNG file, on white where it is see-through. */
export function parsePng(file: Buffer): Result<Frame, 'png-broken'> {
  if (file.length < HEADER_BYTES) return broken('no header');
  const [width, height] = [file.readUInt32BE(16), file.readUInt32BE(20)];
  const [depth = 0, colour = 0] = file.subarray(24, 26);
  if (DEPTHS[colour]?.includes(depth) !== true) return broken(`colour type ${colour}, depth ${depth}`);
  if (width === 0 || height === 0 || width * height > MOST_PIXELS) return broken(`${width} by ${height} pixels`);
  try {
    return ok({ width, height, rgba: coloursOf(decode(file)) });
  } catch (error) {
    return broken(error instanceof Error ? error.message : String(error));
  }
}

function coloursOf(picture: DecodedPng): Uint8ClampedArray {
  const { width, height, channels, palette } = picture;
  const own = bytesOf(picture);
  const rgba = new Uint8ClampedArray(width * height * 4);
  for (let pixel = 0; pixel < width * height; pixel += 1) {
    const first = pixel * channels;
    const entry = palette?.[own[first] ?? 0];
    // Grey is red, green and blue at once; of two or four samples the last says how much is seen.
    const alpha = entry === undefined ? (channels % 2 === 0 ? own[first + channels - 1] : 255) : entry[3];
    for (let channel = 0; channel < 3; channel += 1) {
      const value = entry === undefined ? own[first + (channels > 2 ? channel : 0)] : entry[channel];
      rgba[pixel * 4 + channel] = 255 + (((value ?? 0) - 255) * (alpha ?? 255)) / 255;
    }
    rgba[pixel * 4 + 3] = 255;
  }
  return rgba;
}

/** A byte for each sample: its 8 bits, or its number where it is one of a palette. */
function bytesOf({ data, width, height, depth, palette }: DecodedPng): ArrayLike<number> {
  if (depth === 8) return data;
  if (depth === 16) return Uint8Array.from(data, (value) => value >> 8);
  // Narrower samples are one to a pixel, and each row ends at a whole byte.
  const rowBytes = Math.ceil((width * depth) / 8);
  const most = 2 ** depth - 1;
  const scale = palette === undefined ? 255 / most : 1;
  return Uint8Array.from({ length: width * height }, (_, pixel) => {
    const bit = (pixel % width) * depth;
    const byte = data[Math.floor(pixel / width) * rowBytes + (bit >> 3)] ?? 0;
    return ((byte >> (8 - depth - (bit % 8))) & most) * scale;
  });
}
