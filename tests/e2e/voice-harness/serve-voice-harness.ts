/** Builds a harness as the kiosk is built, with its engines and model, and serves it under the kiosk's headers. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { serve } from '../../../src/tools/serve.mjs';
import { extraFiles } from '../../../src/tools/build/extra-files.mjs';
import { engineFiles, modelFiles } from '../../../src/tools/build/page-files.mjs';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));

export interface Served {
  readonly url: string;
  close(): Promise<void>;
}

/** `folder` is that of the harness's page beside this one. */
export async function serveHarness(folder: 'voice-harness' | 'speech-api'): Promise<Served> {
  const root = await mkdtemp(join(tmpdir(), 'stowcall-voice-'));
  await build({
    root: fileURLToPath(new URL(`../${folder}`, import.meta.url)),
    configFile: false,
    logLevel: 'error',
    plugins: [extraFiles('engines', () => engineFiles(ROOT)), extraFiles('model', () => modelFiles(ROOT))],
    resolve: { alias: { 'blob-polyfill': join(ROOT, 'src/speech/web-speech/worker/blob-polyfill-stub.ts') } },
    worker: { format: 'es' },
    build: { target: 'es2022', outDir: join(root, 'dist'), emptyOutDir: true, assetsInlineLimit: 0 },
  });
  const serving = await serve({ root, port: 0 });
  return {
    url: serving.url,
    close: async () => {
      await serving.close();
      await rm(root, { recursive: true });
    },
  };
}
