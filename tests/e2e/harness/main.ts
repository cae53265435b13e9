/** A bare page around the camera scanner: labels are drawn on a canvas that stands in for the camera. */
import { createCameraScanner } from '../../../src/scan/camera/camera-scanner';
import type { FrameTiming } from '../../../src/scan/camera/frame-loop';
import type { RawReading } from '../../../src/scan/sighting';
import { createWedgeScanner } from '../../../src/scan/wedge/wedge-scanner';
import { sightingConformance } from '../../conformance/sighting';

export interface Held {
  readonly readings: readonly RawReading[];
  /** From the first picture of the label to the first accepted reading; null when there was none. */
  readonly ms: number | null;
}

export interface CameraHarness {
  start(): Promise<string>;
  stop(): void;
  /** Holds a picture before the camera for at most `ms`, ended early by a reading if `untilRead`; then clears the table. */
  hold(png: string | null, ms: number, untilRead: boolean): Promise<Held>;
  /** Ends the camera's track, as pulling its plug does. */
  unplug(): void;
  /** What `getUserMedia` is to do from now on: null for a picture, else the name of the error. */
  fail(error: string | null): void;
  conformance(pictures: Readonly<Record<string, string>>): Promise<readonly string[]>;
  readonly troubles: readonly string[];
  readonly frames: readonly FrameTiming[];
  previewWidth(): number;
  /** What the keyboard-style scanner read, and every key and click that the page itself got to see. */
  readonly scans: readonly RawReading[];
  readonly pageKeys: readonly string[];
}

declare global {
  interface Window {
    cameraHarness: CameraHarness;
  }
}

const scans: RawReading[] = [];
const pageKeys: string[] = [];
// The test's strokes come as fast as the machine lets them; how fast a scanner must be is tested with simulated time.
const gap = new URL(location.href).searchParams.get('gap');
const wedge = createWedgeScanner(window, gap === null ? {} : { gapMs: Number(gap), pauseMs: Number(gap) });
wedge.onReading((reading) => scans.push(reading));
void wedge.start();
window.addEventListener('keydown', (event) => pageKeys.push(event.key), { capture: true });
document.querySelector('button')?.addEventListener('click', () => pageKeys.push('click'));

const canvas = document.createElement('canvas');
canvas.width = 1280;
canvas.height = 720;
const ink = canvas.getContext('2d');
if (ink === null) throw new Error('no canvas');
let picture: HTMLImageElement | null = null;
let drawnMs: number | null = null;
let track: MediaStreamTrack | null = null;
let error: string | null = null;

function draw(): void {
  if (ink === null) return;
  // A hand is never quite still.
  const [x, y] = [Math.round(Math.random() * 2), Math.round(Math.random() * 2)];
  ink.fillStyle = '#777';
  ink.fillRect(0, 0, 1280, 720);
  if (picture !== null) {
    ink.drawImage(picture, x, y);
    drawnMs ??= performance.now();
  }
}
setInterval(draw, 33);

navigator.mediaDevices.getUserMedia = () => {
  if (error !== null) return Promise.reject(new DOMException('refused', error));
  const stream = canvas.captureStream(30);
  track = stream.getVideoTracks()[0] ?? null;
  return Promise.resolve(stream);
};

const frames: FrameTiming[] = [];
const troubles: string[] = [];
const scanner = createCameraScanner({
  engineUrl: '/engine/zxing_reader.wasm',
  onFrame: (timing) => frames.push(timing),
});
scanner.onTrouble((trouble, detail) => troubles.push(`${trouble}: ${detail}`));
const preview = document.querySelector('video');
if (preview !== null) scanner.attach(preview);

const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

/** The page's headers forbid to fetch a data URL, but not to show one. */
async function loaded(url: string): Promise<HTMLImageElement> {
  const image = new Image();
  image.src = url;
  await image.decode();
  return image;
}

async function hold(png: string | null, ms: number, untilRead: boolean): Promise<Held> {
  const readings: RawReading[] = [];
  let firstMs: number | null = null;
  const forget = scanner.onReading((reading) => {
    firstMs ??= performance.now();
    readings.push(reading);
  });
  const next = png === null ? null : await loaded(png);
  drawnMs = null;
  picture = next;
  for (let waited = 0; waited < ms && !(untilRead && readings.length > 0); waited += 10) await pause(10);
  picture = null;
  forget();
  return { readings, ms: firstMs === null || drawnMs === null ? null : firstMs - drawnMs };
}

window.cameraHarness = {
  start: async () => {
    const started = await scanner.start();
    return started.ok ? 'ok' : `${started.reason}: ${started.detail}`;
  },
  stop: () => scanner.stop(),
  hold,
  unplug: () => {
    track?.stop();
    track?.dispatchEvent(new Event('ended'));
  },
  fail: (name) => {
    error = name;
  },
  conformance: (pictures) =>
    sightingConformance({
      port: scanner,
      lay: async (payload) => {
        await hold(pictures[payload] ?? null, 1500, false);
        await pause(1400);
      },
    }),
  troubles,
  frames,
  previewWidth: () => preview?.videoWidth ?? 0,
  scans,
  pageKeys,
};
document.title = 'ready';
