/**
 * Stands in for the microphone and the camera at the browser's edge: sound and pictures are put into real media
 * streams, so that everything behind `getUserMedia` is the page's own path.
 */

/** What the page script offers to the tests. */
export interface TableStub {
  /** Plays 16 kHz samples (base64 of little-endian Float32) into the microphone; resolves with the page time at which the last sample ended. */
  say(base64: string): Promise<number>;
  /** Lays a picture (PNG data URL) before the camera until the next call; null clears the table. */
  show(png: string | null): Promise<number>;
  /** Pulls the plug of a device: its tracks end. */
  unplug(kind: 'audio' | 'video'): void;
  plugIn(): void;
}

declare global {
  interface Window {
    tableStub: TableStub;
  }
}

/** Runs in the page before its own scripts. Must be self-contained: it is sent as source. */
export function installTableStub(options: { readonly deny: readonly ('audio' | 'video')[] }): void {
  const RATE = 16_000;
  const live: MediaStreamTrack[] = [];
  const gone = new Set<string>(options.deny.map((kind) => `deny-${kind}`));
  let audio: { context: AudioContext; out: MediaStreamAudioDestinationNode } | null = null;
  let board: { canvas: HTMLCanvasElement; picture: ImageBitmap | null } | null = null;

  const microphone = (): MediaStreamTrack => {
    if (audio === null) {
      const context = new AudioContext({ sampleRate: RATE });
      const out = context.createMediaStreamDestination();
      // A quiet room is never digital silence: about -66 dB of steady noise.
      const floor = context.createBuffer(1, RATE, RATE);
      const data = floor.getChannelData(0);
      let seed = 1;
      for (let i = 0; i < data.length; i += 1) {
        seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
        data[i] = (seed / 1_073_741_824 - 1) * 0.0008;
      }
      const source = context.createBufferSource();
      source.buffer = floor;
      source.loop = true;
      source.connect(out);
      source.start();
      audio = { context, out };
    }
    void audio.context.resume();
    const track = audio.out.stream.getAudioTracks()[0];
    if (track === undefined) throw new Error('no audio track');
    return track.clone();
  };

  const drawBoard = (): void => {
    if (board === null) return;
    const ink = board.canvas.getContext('2d');
    if (ink === null) return;
    // The hand that holds a label is never quite still, and the sensor is never quite quiet.
    const jitter = (Math.random() - 0.5) * 3;
    ink.fillStyle = '#6d6a64';
    ink.fillRect(0, 0, 1280, 720);
    if (board.picture !== null) {
      ink.save();
      ink.translate(640 + jitter, 360 - jitter);
      ink.rotate(0.05 + jitter / 400);
      ink.drawImage(board.picture, -board.picture.width / 2, -board.picture.height / 2);
      ink.restore();
    }
  };

  const camera = (): MediaStreamTrack => {
    if (board === null) {
      const canvas = document.createElement('canvas');
      canvas.width = 1280;
      canvas.height = 720;
      board = { canvas, picture: null };
      setInterval(drawBoard, 66);
      drawBoard();
    }
    const track = board.canvas.captureStream(15).getVideoTracks()[0];
    if (track === undefined) throw new Error('no video track');
    return track;
  };

  const media = navigator.mediaDevices;
  media.getUserMedia = (constraints) => {
    const tracks: MediaStreamTrack[] = [];
    for (const kind of ['audio', 'video'] as const) {
      if (!constraints?.[kind]) continue;
      if (gone.has(`deny-${kind}`)) return Promise.reject(new DOMException('Permission denied', 'NotAllowedError'));
      if (gone.has(kind)) return Promise.reject(new DOMException('Requested device not found', 'NotFoundError'));
      tracks.push(kind === 'audio' ? microphone() : camera());
    }
    live.push(...tracks);
    return Promise.resolve(new MediaStream(tracks));
  };
  media.enumerateDevices = () =>
    Promise.resolve(
      (['audio', 'video'] as const)
        .filter((kind) => !gone.has(kind))
        .map((kind) => {
          const info = { deviceId: `table-${kind}`, groupId: 'table', kind: `${kind}input`, label: `Table ${kind}` };
          return { ...info, toJSON: () => info } as MediaDeviceInfo;
        }),
    );

  window.tableStub = {
    say: async (base64) => {
      microphone().stop();
      if (audio === null) throw new Error('no microphone');
      const bytes = Uint8Array.from(atob(base64), (char) => char.charCodeAt(0));
      const samples = new Float32Array(bytes.buffer);
      const buffer = audio.context.createBuffer(1, samples.length, RATE);
      buffer.copyToChannel(samples, 0);
      const source = audio.context.createBufferSource();
      source.buffer = buffer;
      source.connect(audio.out);
      source.start();
      await new Promise<void>((done) => {
        source.onended = () => done();
      });
      return performance.now();
    },
    show: async (png) => {
      camera().stop();
      if (board === null) throw new Error('no camera');
      board.picture = png === null ? null : await createImageBitmap(await await fetchPicture(png));
      drawBoard();
      return performance.now();
    },
    unplug: (kind) => {
      gone.add(kind);
      for (const track of live.filter((one) => one.kind === kind)) {
        track.stop();
        track.dispatchEvent(new Event('ended'));
      }
      media.dispatchEvent(new Event('devicechange'));
    },
    plugIn: () => {
      gone.clear();
      media.dispatchEvent(new Event('devicechange'));
    },
  };

  // The page's security policy forbids fetching data URLs, so the picture is decoded by hand.
  function fetchPicture(png: string): Promise<Blob> {
    const bytes = Uint8Array.from(atob(png.slice(png.indexOf(',') + 1)), (char) => char.charCodeAt(0));
    return Promise.resolve(new Blob([bytes], { type: 'image/png' }));
  }
}
