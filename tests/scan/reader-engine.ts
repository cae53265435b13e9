/** The deciding reader's engine for tests in Node: the same code and the same WebAssembly file as the page. */
import { readFileSync } from 'node:fs';
import { prepareSecondReader } from '../../src/scan/camera/second-reader';

/** Node has no ImageData; the engine asks only whether something is one. */
class BareImageData {
  readonly data = new Uint8ClampedArray();
}

/** Starts the engine from its file in node_modules. */
export async function startReaderEngine(): Promise<void> {
  if (!('ImageData' in globalThis)) Object.assign(globalThis, { ImageData: BareImageData });
  const file = readFileSync(new URL('../../node_modules/zxing-wasm/dist/reader/zxing_reader.wasm', import.meta.url));
  await prepareSecondReader({ bytes: new Uint8Array(file).buffer });
}
