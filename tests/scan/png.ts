/** Writes RGBA pixels as a PNG file. */
import { encode } from 'fast-png';

export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8ClampedArray;
}

/** The file's bytes. */
export function encodePng({ width, height, rgba }: Pixels): Uint8Array {
  return encode({ width, height, data: rgba, channels: 4, depth: 8 }, { zlib: { level: 3 } });
}
