/** Builds the harness page as the kiosk is built, and serves it under the kiosk's own headers. */
import { cp, mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { serve } from '../../../src/tools/serve.mjs';

export interface Harness {
  readonly url: string;
  close(): Promise<void>;
}

const ENGINE = '../../../node_modules/zxing-wasm/dist/reader/zxing_reader.wasm';

/** `engine` false leaves the reader's engine out, to see what happens then. */
export async function serveHarness(engine = true): Promise<Harness> {
  const root = await mkdtemp(join(tmpdir(), 'stowcall-harness-'));
  await build({
    root: fileURLToPath(new URL('.', import.meta.url)),
    configFile: false,
    logLevel: 'error',
    worker: { format: 'es' },
    // As in the kiosk: inline data would not be allowed by the headers.
    build: { target: 'es2022', outDir: join(root, 'dist'), emptyOutDir: true, assetsInlineLimit: 0 },
  });
  await mkdir(join(root, 'dist/engine'));
  if (engine) await cp(new URL(ENGINE, import.meta.url), join(root, 'dist/engine/zxing_reader.wasm'));
  const serving = await serve({ root, port: 0 });
  return {
    url: serving.url,
    close: async () => {
      await serving.close();
      await rm(root, { recursive: true });
    },
  };
}
