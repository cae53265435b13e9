/**
 * Both readers of the page on one still picture, in Node. What is the same: views, their order, the deciding reader and
 * its WebAssembly file, the first reader with its mended start search and hints, and its right to object. What differs:
 * the page takes one view besides the plain one from each of several frames of a camera, here all come from the one
 * picture; the first reader gets its grey levels from us instead of from a canvas; and where the page wants two
 * different frames to agree, here the one picture stands for both, so that agreement keeps nothing wrong out.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { BinaryBitmap, HybridBinarizer, MultiFormatReader, RGBLuminanceSource } from '@zxing/library';
import { agreementStep, NOTHING_SEEN } from '../../scan/camera/agreement';
import type { SeenCode } from '../../scan/camera/agreement';
import { mendCode128Start } from '../../scan/camera/code128-start';
import { FIRST_HINTS } from '../../scan/camera/first-hints';
import type { Frame, Pass } from '../../scan/camera/frame';
import { stillPasses } from '../../scan/camera/pass-plan';
import { prepareSecondReader, readViews } from '../../scan/camera/second-reader';
import type { SecondReading } from '../../scan/camera/second-reader';

/** Node has no ImageData; the engine asks only whether something is one. */
class BareImageData {
  readonly data = new Uint8ClampedArray();
}

/** Starts the deciding reader from its file in node_modules. */
export async function startReaders(): Promise<void> {
  if (!('ImageData' in globalThis)) Object.assign(globalThis, { ImageData: BareImageData });
  const file = readFileSync(createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm'));
  await prepareSecondReader({ bytes: new Uint8Array(file).buffer });
  mendCode128Start();
}

/** Grey levels as the first reader makes them of a canvas (`HTMLCanvasElementLuminanceSource`). */
function luminances({ rgba }: Frame): Uint8ClampedArray {
  const levels = new Uint8ClampedArray(rgba.length / 4);
  for (let at = 0, from = 0; at < levels.length; at += 1, from += 4) {
    levels[at] = (306 * (rgba[from] ?? 0) + 601 * (rgba[from + 1] ?? 0) + 117 * (rgba[from + 2] ?? 0) + 0x200) >> 10;
  }
  return levels;
}

/** What the first reader reads; null for nothing. It warns on the console for every kind that it does not find. */
export function readFirst(frame: Frame): string | null {
  const reader = new MultiFormatReader();
  const { warn } = console;
  console.warn = () => undefined;
  try {
    const source = new RGBLuminanceSource(luminances(frame), frame.width, frame.height);
    return reader.decode(new BinaryBitmap(new HybridBinarizer(source)), new Map(FIRST_HINTS)).getText();
  } catch {
    return null;
  } finally {
    console.warn = warn;
  }
}

export interface StillReading {
  /** What the page would accept of this picture, if it went on: the code that is clearly meant, or nothing. */
  readonly accepted: SeenCode | null;
  /** Everything that the deciding reader read. */
  readonly readings: readonly SecondReading[];
  /** The view that showed it. */
  readonly pass: Pass | null;
  /** What the first reader read on the same picture; it was asked only where the deciding reader read something. */
  readonly first: string | null;
  readonly tookMs: number;
}

/** The most frames that have to agree on a code: three, for Code 39. */
const FRAMES = 3;
const FRAME_MS = 50;

/** The page's rule on which reading counts, for a picture that comes again and again. */
export function acceptedOf(first: string | null, second: readonly SecondReading[]): SeenCode | null {
  let state = NOTHING_SEEN;
  for (let frame = 0; frame < FRAMES; frame += 1) {
    const step = agreementStep(state, { timeMs: frame * FRAME_MS, first, second });
    if (step.accepted !== null) return step.accepted;
    state = step.state;
  }
  return null;
}

/** Everything that the page could make of this picture if it were held still before the camera. */
export async function readStill(frame: Frame): Promise<StillReading> {
  const startedMs = performance.now();
  const { readings, pass } = await readViews(frame, stillPasses());
  const first = readings.length === 0 ? null : readFirst(frame);
  const accepted = acceptedOf(first, readings);
  return { accepted, readings, pass, first, tookMs: performance.now() - startedMs };
}
