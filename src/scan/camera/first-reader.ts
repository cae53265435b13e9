/** The camera layer and first reader: @zxing/browser's loop over the stream, its Code 128 start search mended. */
import { BrowserMultiFormatReader } from '@zxing/browser';
import type { IScannerControls } from '@zxing/browser';
import { NotFoundException } from '@zxing/library';
import { mendCode128Start } from './code128-start';
import { FIRST_HINTS } from './first-hints';
import type { Frame } from './frame';

/** How often the loop looks whether a new frame is wanted. */
const TICK_MS = 15;

export interface FrameTaker {
  /** Whether the frame that is on the camera now should be looked at. Asked at every tick. */
  wants(): boolean;
  /**
   * Takes the frame to the deciding reader, which works while the first one does. What comes back is told what the
   * first reader made of the same frame (null for nothing) and how long that took. Null: a glance was enough.
   */
  take(frame: Frame): ((first: string | null, tookMs: number) => void) | null;
}

/**
 * The library warns on the console for every kind of code that a frame does not show, several lines a frame. Reading
 * is one synchronous call, so the console is quiet for exactly as long.
 */
function quietly<T>(read: () => T): T {
  const { warn } = console;
  console.warn = () => undefined;
  try {
    return read();
  } finally {
    console.warn = warn;
  }
}

/** The library's reader, with every frame that it looks at handed on. */
class TappedReader extends BrowserMultiFormatReader {
  readonly #taker: FrameTaker;

  constructor(taker: FrameTaker) {
    super(new Map(FIRST_HINTS), { delayBetweenScanAttempts: TICK_MS, delayBetweenScanSuccess: TICK_MS });
    this.#taker = taker;
  }

  /** Called by the library's loop with each picture. Its own exception for "nothing found" keeps the loop going. */
  override decodeFromCanvas(canvas: HTMLCanvasElement): ReturnType<BrowserMultiFormatReader['decodeFromCanvas']> {
    const context = this.#taker.wants() ? canvas.getContext('2d', { willReadFrequently: true }) : null;
    if (context === null || canvas.width === 0) throw new NotFoundException();
    const { data, width, height } = context.getImageData(0, 0, canvas.width, canvas.height);
    const told = this.#taker.take({ width, height, rgba: data });
    if (told === null) throw new NotFoundException();
    const startedMs = performance.now();
    let first: string | null = null;
    try {
      first = quietly(() => super.decodeFromCanvas(canvas)).getText();
    } catch {
      // Nothing found, a check that does not fit, or a defect of the library: the deciding reader goes on all the same.
    }
    told(first, performance.now() - startedMs);
    throw new NotFoundException();
  }
}

/**
 * Starts the loop over a stream that `video` plays. The controls stop loop and stream. Rejects when the video does not
 * play.
 */
export function startFirstReader(
  stream: MediaStream,
  video: HTMLVideoElement,
  taker: FrameTaker,
): Promise<IScannerControls> {
  mendCode128Start();
  return new TappedReader(taker).decodeFromStream(stream, video, () => undefined);
}
