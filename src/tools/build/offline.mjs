/** The service worker: everything that the page can ask for is stored at the first visit, so no network is needed. */

/** The voice engine is 21.5 MB; a file above this would silently be missing offline, so the build fails on it. */
const LARGEST_BYTES = 30_000_000;

/** @type {Partial<import('vite-plugin-pwa').VitePWAOptions>} */
export const offline = {
  // A new version waits until the page lets it take over, which it does between packs only.
  registerType: 'prompt',
  injectRegister: 'auto',
  manifest: {
    id: '/',
    name: 'Stowcall',
    short_name: 'Stowcall',
    description: 'The hands-free kiosk at a parachute packing table',
    lang: 'en',
    start_url: '/',
    scope: '/',
    display: 'fullscreen',
    orientation: 'any',
    background_color: '#12202b',
    theme_color: '#12202b',
    icons: [
      { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' },
      { src: 'icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
      { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
      { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
    ],
  },
  includeManifestIcons: false,
  workbox: {
    // Model files have no ending, so nothing short of everything is complete.
    globPatterns: ['**/*'],
    globIgnores: ['sw.js', 'sw.js.map'],
    maximumFileSizeToCacheInBytes: LARGEST_BYTES,
    navigateFallback: 'index.html',
    cleanupOutdatedCaches: true,
    // Nothing new is installed in the middle of a pack.
    // The loft's files come from the server while it answers; see the script.
    importScripts: ['loft-first.js', 'open-pack-guard.js'],
    skipWaiting: false,
    clientsClaim: true,
    inlineWorkboxRuntime: true,
    sourcemap: false,
  },
};
