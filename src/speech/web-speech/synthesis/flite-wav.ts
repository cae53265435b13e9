/** Reads the RIFF/WAVE bytes that the speech engine writes into single-channel samples. */
import { ok, refused } from '@stowcall/grammar';
import type { Result } from '@stowcall/grammar';

/** Single-channel sound: samples from -1 to 1, and how many of them make a second. */
export interface Sound {
  readonly samples: Float32Array<ArrayBuffer>;
  readonly sampleRate: number;
}

interface Format {
  readonly channels: number;
  readonly sampleRate: number;
}

const PCM = 1;

/**
 * Reads 16-bit PCM WAVE bytes of one or more channels, which are averaged into one.
 * Refuses anything else, and a data chunk that is shorter than it says.
 */
export function parseWav(bytes: Uint8Array): Result<Sound, 'not-wave'> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 12 || tag(view, 0) !== 'RIFF' || tag(view, 8) !== 'WAVE') {
    return refused('not-wave', 'This is no WAVE sound: it does not begin with RIFF and WAVE.');
  }
  let format: Format | null = null;
  for (let at = 12; at + 8 <= bytes.length;) {
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (body + size > bytes.length) return refused('not-wave', 'This WAVE sound is cut short: make it again.');
    if (tag(view, at) === 'fmt ') {
      const read = parseFormat(view, body, size);
      if (!read.ok) return read;
      format = read.value;
    } else if (tag(view, at) === 'data') {
      if (format === null) return refused('not-wave', 'This WAVE sound has data before its format.');
      return ok(readSamples(view, { body, size }, format));
    }
    at = body + size + (size % 2);
  }
  return refused('not-wave', 'This WAVE sound holds no samples.');
}

function parseFormat(view: DataView, at: number, size: number): Result<Format, 'not-wave'> {
  if (size < 16) return refused('not-wave', 'This WAVE sound has too short a format.');
  const channels = view.getUint16(at + 2, true);
  const bits = view.getUint16(at + 14, true);
  if (view.getUint16(at, true) !== PCM || bits !== 16 || channels < 1) {
    return refused('not-wave', 'This WAVE sound is not 16-bit PCM: only that is read.');
  }
  return ok({ channels, sampleRate: view.getUint32(at + 4, true) });
}

function readSamples(view: DataView, { body, size }: { body: number; size: number }, format: Format): Sound {
  const frameBytes = format.channels * 2;
  const frames = Math.floor(size / frameBytes);
  const samples = new Float32Array(frames);
  for (let frame = 0; frame < frames; frame += 1) {
    let sum = 0;
    for (let channel = 0; channel < format.channels; channel += 1) {
      sum += view.getInt16(body + frame * frameBytes + channel * 2, true);
    }
    samples[frame] = sum / format.channels / 32768;
  }
  return { samples, sampleRate: format.sampleRate };
}

function tag(view: DataView, at: number): string {
  return String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));
}
