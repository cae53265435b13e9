/**
 * Both readers of the page on one still picture, in Node. What is the same: views, their order, the deciding reader and
 * its WebAssembly file, the first reader with its mended start search and hints, and its right to object. What differs:
 * the page takes each view from another frame of a camera, here all come from the one picture; the first reader gets
 * its grey levels from us instead of from a canvas; and where the page wants two different frames to agree, here the
 * one picture stands for both, so that only the two views of a linear code keep anything wrong out.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { BinaryBitmap, HybridBinarizer, MultiFormatReader, RGBLuminanceSource } from '@zxing/library';
import { agreementStep, NOTHING_SEEN } from '../../src/scan/camera/agreement';
import type { SeenCode } from '../../src/scan/camera/agreement';
import { mendCode128Start } from '../../src/scan/camera/code128-start';
import { FIRST_HINTS } from '../../src/scan/camera/first-hints';
import type { Frame, Pass } from '../../src/scan/camera/frame';
import { FIRST_PLAN, FRAMES_OF_A_ROUND, passesOf, planNext } from '../../src/scan/camera/pass-plan';
import { prepareSecondReader, readFrame, readViews } from '../../src/scan/camera/second-reader';
import type { SecondReading } from '../../src/scan/camera/second-reader';

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
  /** Everything that the deciding reader read in the views that it looked at, and in which. */
  readonly readings: readonly (SecondReading & { readonly pass: Pass })[];
  /** What the first reader read on the same picture; it was asked only where the deciding reader read something. */
  readonly first: string | null;
  readonly tookMs: number;
}

const FRAME_MS = 50;

/** Everything that the page could make of this picture if it were held still before the camera for a round of views. */
export async function readStill(frame: Frame): Promise<StillReading> {
  const startedMs = performance.now();
  // Each view is read once at most, however often its turn comes.
  const read = new Map<Pass, readonly SecondReading[]>();
  const readOnce = async (of: Frame, pass: Pass): Promise<readonly SecondReading[]> => {
    const readings = read.get(pass) ?? (await readFrame(of, pass));
    read.set(pass, readings);
    return readings;
  };
  let plan = FIRST_PLAN;
  let state = NOTHING_SEEN;
  let accepted: SeenCode | null = null;
  let first: string | null | undefined;
  for (let turn = 0; turn < FRAMES_OF_A_ROUND && accepted === null; turn += 1) {
    const { readings, pass } = await readViews(frame, passesOf(plan), readOnce);
    plan = planNext(plan, { readings, pass });
    if (first === undefined && readings.length > 0) first = readFirst(frame);
    const step = agreementStep(state, { timeMs: turn * FRAME_MS, first: first ?? null, second: readings, pass });
    ({ state, accepted } = step);
  }
  const readings = [...read].flatMap(([pass, seen]) => seen.map((reading) => ({ ...reading, pass })));
  return { accepted, readings, first: first ?? null, tookMs: performance.now() - startedMs };
}
