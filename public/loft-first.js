/* global self, fetch, caches, AbortSignal, Response, URL */
/**
 * Part of the service worker: the loft's files are asked of the server first, always. A revocation must not wait for the
 * next version of the page. Where the server does not answer, the last copy that it gave counts, and before the first
 * such copy the one that was stored with the page. Loaded ahead of everything else, so that it answers before the precache.
 */
(() => {
  const COPIES = 'stowcall-loft';
  const LIMIT_MS = 1_500;

  async function stored(request) {
    const copies = await caches.open(COPIES);
    const copy = await copies.match(request, { ignoreSearch: true });
    return copy ?? (await caches.match(request, { ignoreSearch: true })) ?? Response.error();
  }

  async function serverFirst(request) {
    let answer;
    try {
      answer = await fetch(request.url, { cache: 'no-store', signal: AbortSignal.timeout(LIMIT_MS) });
    } catch {
      return stored(request);
    }
    if (answer.ok) {
      const copies = await caches.open(COPIES);
      await copies.put(request, answer.clone());
    }
    return answer;
  }

  self.addEventListener('fetch', (event) => {
    const url = new URL(event.request.url);
    const folder = new URL('loft/', self.registration.scope);
    if (event.request.method !== 'GET' || !url.href.startsWith(folder.href)) return;
    event.stopImmediatePropagation();
    event.respondWith(serverFirst(event.request));
  });
})();
