/** The scanner that reads through a camera: starts and stops stream and readers behind the sighting port. */
import { ok, refused } from '../../domain/result';
import type { Result } from '../../domain/result';
import { listeners } from '../../domain/listeners';
import type { RawReading, SightingPort, SightingTrouble } from '../sighting';
import { NOTHING_SEEN } from './agreement';
import { lightUp, openCamera } from './camera-stream';
import { startFirstReader } from './first-reader';
import type { FrameTaker } from './first-reader';
import { createFrameLoop } from './frame-loop';
import type { FrameTiming } from './frame-loop';
import type { Hint } from './picture-hint';
import { createReaderLink } from './reader-link';

export interface CameraScannerOptions {
  /** The deciding reader's WebAssembly file, on the page's own origin: `/engine/zxing_reader.wasm`. */
  readonly engineUrl: string;
  /** Which camera, asked at each start; null or absent for the one that the browser prefers. */
  readonly device?: () => string | null;
  /** Told of every frame that was looked at: for benches and tests. */
  readonly onFrame?: (timing: FrameTiming) => void;
}

export type CameraScanner = SightingPort & {
  /** Shows the camera's picture in this element too, now and after every start. */
  attach(video: HTMLVideoElement): void;
  /** The camera that runs now; null for none. */
  used(): string | null;
  /** Told what would help, when it changes. Asks for the camera's own light when it is too dark, where it has one. */
  onHint(listener: (hint: Hint | null) => void): () => void;
};

interface Run {
  readonly stop: () => void;
  readonly stream: MediaStream;
}

function usedBy(run: Run | null): string | null {
  return run?.stream.getVideoTracks()[0]?.getSettings().deviceId ?? null;
}

function show(video: HTMLVideoElement | null, stream: MediaStream | null): void {
  if (video === null) return;
  video.srcObject = stream;
  if (stream === null) return;
  video.muted = true;
  video.playsInline = true;
  // A preview that does not play harms nothing: reading has a video element of its own.
  video.play().catch(() => undefined);
}

function stopTracks(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}

/** Plays the stream in a video element of its own and starts the readers on it. Rejects when it does not play. */
async function look(stream: MediaStream, takerFor: (video: HTMLVideoElement) => FrameTaker): Promise<Run> {
  const video = document.createElement('video');
  video.muted = true;
  video.playsInline = true;
  const controls = await startFirstReader(stream, video, takerFor(video));
  const stop = (): void => {
    controls.stop();
    stopTracks(stream);
  };
  return { stream, stop };
}

/** Makes the scanner. Nothing is asked for or loaded before `start`. */
export function createCameraScanner(options: CameraScannerOptions): CameraScanner {
  const readings = listeners<[RawReading]>();
  const troubles = listeners<[SightingTrouble, string]>();
  const hints = listeners<[Hint | null]>();
  const seen = { agreement: NOTHING_SEEN };
  let run: Run | null = null;
  let starting: Promise<Result<void, SightingTrouble>> | null = null;
  let preview: HTMLVideoElement | null = null;
  /** Counts starts and stops: whatever belongs to an older one is thrown away. */
  let generation = 0;

  const halt = (): void => {
    generation += 1;
    starting = null;
    run?.stop();
    run = null;
    show(preview, null);
    hints.tell(null);
  };
  const fail = (trouble: SightingTrouble, detail: string): void => {
    halt();
    troubles.tell(trouble, detail);
  };
  hints.add((hint) => hint === 'moreLight' && lightUp(run?.stream));
  const link = createReaderLink({
    url: options.engineUrl,
    onFailure: (detail) =>
      fail('engine', `The label reader stopped (${detail}). Start it again, or use the keyboard-style scanner.`),
  });

  const playedTo = (video: HTMLVideoElement, isCurrent: () => boolean) =>
    createFrameLoop({
      ...{ video, link, isCurrent, seen },
      onAccepted: ({ payload, symbology }) => readings.tell({ payload, symbology, reader: 'camera' }),
      onStalled: () => fail('unplugged', 'The camera sends no picture. Unplug it and connect it again.'),
      onHint: hints.tell,
      onFrame: options.onFrame ?? (() => undefined),
    });

  const begin = async (): Promise<Result<void, SightingTrouble>> => {
    const mine = ++generation;
    const isCurrent = (): boolean => mine === generation;
    const stopped = refused('absent' as const, 'The camera was stopped while it started. Start it again.');
    const [engine, camera] = await Promise.all([link.prepare(), openCamera(options.device?.() ?? null)]);
    if (!camera.ok) return camera;
    if (!engine.ok || !isCurrent()) {
      stopTracks(camera.value);
      return engine.ok ? stopped : engine;
    }
    try {
      const started = await look(camera.value, (video) => playedTo(video, isCurrent));
      if (!isCurrent()) {
        started.stop();
        return stopped;
      }
      run = started;
    } catch {
      stopTracks(camera.value);
      return refused('absent', 'The camera shows no picture. Unplug it and connect it again.');
    }
    camera.value.getVideoTracks()[0]?.addEventListener('ended', () => {
      if (isCurrent()) fail('unplugged', 'The camera was unplugged. Connect it again.');
    });
    show(preview, camera.value);
    return ok(undefined);
  };

  return {
    start: () => {
      if (run !== null) return Promise.resolve(ok(undefined));
      if (starting !== null) return starting;
      const mine = begin();
      starting = mine;
      return mine.finally(() => {
        if (starting === mine) starting = null;
      });
    },
    stop: halt,
    onReading: readings.add,
    onTrouble: troubles.add,
    onHint: hints.add,
    used: () => usedBy(run),
    attach: (video) => show((preview = video), run?.stream ?? null),
  };
}
