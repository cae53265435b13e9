/** The recogniser's package names its WebAssembly beside itself; the page serves that file under `engine/` and says so. */

/**
 * Keeps the bundler from shipping the same file a second time.
 * @returns {import('vite').Plugin}
 */
export function oneRecogniser() {
  return {
    name: 'stowcall-one-recogniser',
    enforce: 'pre',
    transform(code, id) {
      if (!id.includes('soundswallower.web.js')) return null;
      const beside = /new URL\("soundswallower\.web\.wasm",\s*import\.meta\.url\)/;
      if (!beside.test(code)) throw new Error('soundswallower no longer names its WebAssembly as expected');
      return {
        code: code.replace(beside, 'new URL("/engine/soundswallower.web.wasm", self.location.origin)'),
        map: null,
      };
    },
  };
}
