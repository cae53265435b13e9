/** The microphone: opened without any processing, its sound sent through a port, its troubles reported. */
import { ok, refused } from '@stowcall/grammar';
import type { Result } from '@stowcall/grammar';
import captureUrl from './capture.worklet.ts?worker&url';
import { levelOf } from './level';

export type MicrophoneTrouble = 'denied' | 'absent' | 'unplugged';

/** The recogniser's rate; the browser resamples. */
const SAMPLE_RATE = 16_000;
/** Echo, noise and gain processing are made for calls and bend speech: measured, they halve its likeness to the source. */
const CONSTRAINTS: MediaTrackConstraints = {
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
  channelCount: 1,
};
/** A browser that holds sound back until the page is touched never answers, so there is a limit to waiting. */
const RESUME_MS_MAX = 3000;

export interface MicrophoneOptions {
  /** Where blocks of sound go. */
  readonly to: MessagePort;
  /** 0 to 1, ten times a second. */
  readonly onLevel: (level: number) => void;
  /** Called once when it is lost. */
  readonly onTrouble: (trouble: MicrophoneTrouble, detail: string) => void;
  /** A track to listen to instead of the microphone. */
  readonly track?: MediaStreamTrack;
}

export interface Microphone {
  /** Position of the stream now, in samples at 16 kHz. */
  position(): number;
  close(): void;
}

const BY_HAND = 'Touch, keys and the command card still work.';

/** Opens the microphone; asks for permission where it must. */
export async function openMicrophone(options: MicrophoneOptions): Promise<Result<Microphone, MicrophoneTrouble>> {
  const stream = await openStream(options.track);
  if (!stream.ok) return stream;
  const tracks = stream.value.getAudioTracks();
  const release = (): void => {
    if (options.track === undefined) for (const track of tracks) track.stop();
  };
  const context = new AudioContext({ sampleRate: SAMPLE_RATE });
  try {
    await context.audioWorklet.addModule(captureUrl);
  } catch (error) {
    release();
    void context.close();
    throw error;
  }
  if (!(await resumed(context))) {
    release();
    void context.close();
    return refused('denied', `Sound is not allowed yet. Touch the screen once. ${BY_HAND}`);
  }
  const node = new AudioWorkletNode(context, 'capture', { numberOfInputs: 1, numberOfOutputs: 0 });
  node.port.onmessage = ({ data }: MessageEvent<number>) => options.onLevel(levelOf(data));
  node.port.postMessage({ to: options.to }, [options.to]);
  const source = context.createMediaStreamSource(stream.value);
  source.connect(node);

  let open = true;
  const close = (): void => {
    if (!open) return;
    open = false;
    source.disconnect();
    release();
    void context.close();
  };
  for (const track of tracks) {
    track.addEventListener('ended', () => {
      if (!open) return;
      close();
      options.onTrouble('unplugged', `The microphone was unplugged. Connect it again. ${BY_HAND}`);
    });
  }
  return ok({ position: () => Math.round(context.currentTime * SAMPLE_RATE), close });
}

async function openStream(track: MediaStreamTrack | undefined): Promise<Result<MediaStream, MicrophoneTrouble>> {
  if (track !== undefined) return ok(new MediaStream([track]));
  // Browsers leave it out on pages that are neither on this machine nor on https.
  const devices: MediaDevices | undefined = navigator.mediaDevices;
  if (devices === undefined) return refused('denied', `This page may not use a microphone. ${BY_HAND}`);
  try {
    return ok(await devices.getUserMedia({ audio: CONSTRAINTS }));
  } catch (error) {
    return microphoneRefusal(error instanceof Error ? error.name : '');
  }
}

/** What the browser's error name means here (Media Capture and Streams, 10.2 `getUserMedia`). */
export function microphoneRefusal(name: string): Result<never, MicrophoneTrouble> {
  switch (name) {
    case 'NotAllowedError':
    case 'SecurityError':
      return refused('denied', `The microphone is not allowed. Allow it for this page. ${BY_HAND}`);
    case 'NotReadableError':
    case 'AbortError':
      return refused('absent', `The microphone is in use by another program. Close that. ${BY_HAND}`);
    default:
      return refused('absent', `No microphone is connected. Connect one. ${BY_HAND}`);
  }
}

async function resumed(context: AudioContext): Promise<boolean> {
  const limit = new Promise<void>((resolve) => setTimeout(resolve, RESUME_MS_MAX));
  await Promise.race([context.resume(), limit]);
  return context.state === 'running';
}
