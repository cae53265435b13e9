/* global self, indexedDB, navigator, setTimeout */
/**
 * Part of the service worker: a new version of the page is not installed while a pack is open. So whatever happens in
 * the middle of a pack (a reload, a killed browser), the pack is taken up by the version that it was begun with; the
 * files of that version stay stored, and the new one is looked for again after the pack.
 */
(() => {
  const JOURNAL = 'stowcall';
  /** Facts that belong to no pack (`src/domain/fact.ts`): it never ends, and is never an open pack. */
  const LOFT_STREAM = 'loft';
  const LIMIT_MS = 10_000;
  /** The page holds it while it stores the first fact of a pack (`src/kiosk/new-version.ts`). */
  const LOCK = 'stowcall-version';

  /** Opens the journal without ever making one: an empty one without its stores would pass for a damaged journal. */
  function openJournal() {
    return new Promise((done, failed) => {
      const opening = indexedDB.open(JOURNAL);
      opening.onupgradeneeded = () => opening.transaction.abort();
      opening.onsuccess = () => done(opening.result);
      opening.onerror = () => failed(opening.error);
      setTimeout(() => failed(new Error('the journal does not answer')), LIMIT_MS);
    });
  }

  function countOpen(db) {
    return new Promise((done, failed) => {
      const counting = db.transaction('packs').objectStore('packs').index('ended').getAllKeys(0);
      counting.onsuccess = () => done(counting.result.filter((pack) => pack !== LOFT_STREAM).length);
      counting.onerror = () => failed(counting.error);
    });
  }

  /** Fails while a pack is open, and where that cannot be told: then it is tried again at the next look. */
  async function refuseWhileOpen() {
    const names = (await indexedDB.databases()).map(({ name }) => name);
    if (!names.includes(JOURNAL)) return;
    const db = await openJournal();
    db.onversionchange = () => db.close();
    try {
      if ((await countOpen(db)) > 0) throw new Error('A pack is open: the new version waits until it is over.');
    } finally {
      db.close();
    }
  }

  /** Becomes something else than `installing`, whatever that is. */
  function stateChanges() {
    return new Promise((done) => {
      self.serviceWorker.addEventListener('statechange', done, { once: true });
      setTimeout(done, LIMIT_MS);
    });
  }

  /** The same, and no pack can begin from the answer on until this version is installed and the page can see it. */
  function refuseAndHold() {
    return new Promise((done, failed) => {
      const asked = navigator.locks.request(LOCK, async () => {
        await refuseWhileOpen();
        const changed = stateChanges();
        done();
        await changed;
      });
      asked.catch(failed);
    });
  }

  self.addEventListener('install', (event) => {
    // The very first version replaces none.
    if (self.registration.active === null) return;
    const wait = event.waitUntil.bind(event);
    // Asked before anything is fetched, and once more when all is there: a pack may have been opened meanwhile.
    wait(refuseWhileOpen());
    // One promise for each file, and one for the whole that ends last.
    let unfinished = 0;
    let held = null;
    event.waitUntil = (work) => {
      unfinished += 1;
      const done = Promise.resolve(work).then(() => {
        unfinished -= 1;
        return unfinished === 0 ? (held ??= refuseAndHold()) : undefined;
      });
      wait(done);
    };
  });
})();
