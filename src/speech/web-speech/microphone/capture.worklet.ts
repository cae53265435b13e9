/** Runs on the browser's sound thread: sends blocks of sound through a port and the level to the page. */
import { BlockGatherer } from './block-gatherer';

declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;
declare const currentFrame: number;

/** 20 ms at 16 kHz. */
const BLOCK = 320;
/** Blocks between two levels: ten levels a second. */
const LEVEL_EVERY = 5;

class Capture extends AudioWorkletProcessor {
  readonly #gatherer = new BlockGatherer(BLOCK);
  #to: MessagePort | null = null;
  #power = 0;
  #blocks = 0;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<{ to: MessagePort }>) => {
      this.#to = data.to;
    };
  }

  process([input]: readonly (readonly Float32Array[])[]): boolean {
    const piece = input?.[0];
    if (piece === undefined) return true;
    for (const block of this.#gatherer.push(currentFrame, piece)) {
      for (const sample of block.samples) this.#power += (sample * sample) / BLOCK;
      this.#blocks += 1;
      if (this.#blocks === LEVEL_EVERY) {
        this.port.postMessage(this.#power / LEVEL_EVERY);
        this.#power = 0;
        this.#blocks = 0;
      }
      this.#to?.postMessage(block, [block.samples.buffer]);
    }
    return true;
  }
}

registerProcessor('capture', Capture);
