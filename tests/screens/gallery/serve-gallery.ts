/** Builds the gallery as the kiosk is built, and serves it under the kiosk's own headers. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { build } from 'vite';
import { serve } from '../../../src/tools/serve.mjs';
import { realViews } from '../real-views';

export interface Gallery {
  /** Address of one fixture. */
  view(name: string, statusBar?: string): string;
  /** Address of the page that shows the demo packs' views one after another: `window.showReal(index)`. */
  readonly real: string;
  close(): Promise<void>;
}

export async function serveGallery(): Promise<Gallery> {
  const root = await mkdtemp(join(tmpdir(), 'stowcall-gallery-'));
  await build({
    root: fileURLToPath(new URL('.', import.meta.url)),
    configFile: false,
    logLevel: 'error',
    plugins: [react()],
    build: { target: 'es2022', outDir: join(root, 'dist'), emptyOutDir: true, assetsInlineLimit: 0 },
  });
  await writeFile(join(root, 'dist/real-views.json'), JSON.stringify(realViews()));
  const serving = await serve({ root, port: 0 });
  return {
    view: (name, statusBar = 'listening') => new URL(`?view=${name}&status=${statusBar}`, serving.url).href,
    real: new URL('?real', serving.url).href,
    close: async () => {
      await serving.close();
      await rm(root, { recursive: true });
    },
  };
}
