import react from '@vitejs/plugin-react';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { extraFiles } from './src/tools/build/extra-files.mjs';
import { offline } from './src/tools/build/offline.mjs';
import { oneRecogniser } from './src/tools/build/one-recogniser.mjs';
import { engineFiles, loftFiles, modelFiles, noticesFile } from './src/tools/build/page-files.mjs';

const root = fileURLToPath(new URL('.', import.meta.url));

export default defineConfig({
  root,
  plugins: [
    react(),
    oneRecogniser(),
    extraFiles('engines', () => engineFiles(root)),
    extraFiles('model', () => modelFiles(root)),
    extraFiles('loft', () => loftFiles(`${root}demo-data`)),
    extraFiles('notices', () => noticesFile(root)),
    VitePWA(offline),
  ],
  resolve: {
    // The recogniser's package asks for a Blob of its own, which needs a document and so fails in a worker.
    alias: { 'blob-polyfill': `${root}src/speech/web-speech/worker/blob-polyfill-stub.ts` },
  },
  worker: { format: 'es', plugins: () => [oneRecogniser()] },
  build: { target: 'es2022', sourcemap: false, chunkSizeWarningLimit: 1500 },
  // What badges are printed from is served by nobody. The first four are the server's own rules.
  server: {
    host: 'localhost',
    fs: { deny: ['.env', '.env.*', '*.{crt,pem}', '**/.git/**', '**/badges.yaml', '**/demo-data/labels/**'] },
  },
  optimizeDeps: { exclude: ['soundswallower', 'zxing-wasm'] },
});
