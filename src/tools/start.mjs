/** `npm start`: makes sure of everything, then serves the kiosk's page on this machine. */
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureBuild, ensureDependencies, ensureModel, ensureNode } from './ensure.mjs';
import { run } from './say.mjs';
import { serveForGood } from './serve.mjs';

const root = resolve(fileURLToPath(import.meta.url), '../../..');

await run(async () => {
  ensureNode();
  ensureDependencies(root);
  await ensureModel(root);
  ensureBuild(root);
  await serveForGood(root);
});
