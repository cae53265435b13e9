/** Plays the chime and listens for it through the microphone, once. The arithmetic is elsewhere. */
import { openMicrophone } from '@stowcall/web-speech/microphone';
import { chimeDelay, makeSweep } from './late-chime';

const RATE = 16_000;
/** The latest that is looked for, and the chime itself. */
const SECONDS = 2.5 + 0.35;

interface Block {
  readonly at: number;
  readonly samples: Float32Array;
}

/** Milliseconds from playing to hearing, less what the output itself tells of its latency; null for not heard. */
export async function measureDelay(makeContext = () => new AudioContext()): Promise<number | null> {
  const channel = new MessageChannel();
  const heard = new Float32Array(Math.ceil(SECONDS * RATE));
  const opened = await openMicrophone({ to: channel.port2, onLevel: () => undefined, onTrouble: () => undefined });
  if (!opened.ok) return null;
  const context = makeContext();
  try {
    await Promise.race([context.resume(), new Promise((resolve) => setTimeout(resolve, 500))]);
    if (context.state !== 'running') return null;
    const { samples } = makeSweep();
    const buffer = context.createBuffer(1, samples.length, RATE);
    buffer.copyToChannel(Float32Array.from(samples), 0);
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(context.destination);
    const from = opened.value.position();
    channel.port1.onmessage = ({ data }: MessageEvent<Block>) => {
      const at = data.at - from;
      const skipped = Math.max(0, -at);
      if (at < heard.length)
        heard.set(data.samples.subarray(skipped, skipped + heard.length - Math.max(0, at)), Math.max(0, at));
    };
    source.start();
    await new Promise((resolve) => setTimeout(resolve, SECONDS * 1_000));
    const delay = chimeDelay(heard);
    const told = ((context.outputLatency || 0) + (context.baseLatency || 0)) * 1_000;
    return delay === null ? null : Math.max(0, delay - told);
  } finally {
    opened.value.close();
    channel.port1.close();
    void context.close();
  }
}
