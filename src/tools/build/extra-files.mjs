/** A Vite plugin that puts further files beside the page: served in development, emitted into `dist` by the build. */
import { readFile } from 'node:fs/promises';

/**
 * @typedef {{ readonly file: string } | { readonly text: () => string }} ExtraFile a file on disk, or what makes its content
 * @typedef {ReadonlyMap<string, ExtraFile>} ExtraFiles by path below the page's address, without a leading slash
 */

/** @type {Readonly<Record<string, string>>} */
const TYPES = {
  wasm: 'application/wasm',
  json: 'application/json; charset=utf-8',
  yaml: 'text/yaml; charset=utf-8',
  txt: 'text/plain; charset=utf-8',
};

/**
 * `list` is asked anew for each request and each build, so a changed file is seen without a restart.
 * @param {string} name
 * @param {() => ExtraFiles} list
 * @returns {import('vite').Plugin}
 */
export function extraFiles(name, list) {
  return {
    name: `stowcall-${name}`,
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const path = decodeURIComponent((request.url ?? '/').split('?')[0] ?? '/').slice(1);
        const entry = list().get(path);
        if (entry === undefined) return next();
        content(entry).then(
          (bytes) => {
            const ending = path.slice(path.lastIndexOf('.') + 1);
            response.setHeader('content-type', TYPES[ending] ?? 'application/octet-stream');
            response.end(bytes);
          },
          (/** @type {unknown} */ error) => next(error),
        );
      });
    },
    async generateBundle() {
      for (const [fileName, entry] of list()) {
        this.emitFile({ type: 'asset', fileName, source: await content(entry) });
      }
    },
  };
}

/** @param {ExtraFile} entry */
async function content(entry) {
  return 'file' in entry ? readFile(entry.file) : Buffer.from(entry.text());
}
