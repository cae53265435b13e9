/** Takes up a new version of the page between packs. That none is installed during one is the service worker's part. */
import { listeners } from '../domain/listeners';

export interface NewVersion {
  /** One is stored whole and waits to be taken up. */
  isWaiting(): boolean;
  /** Called when one begins to wait. */
  onWaiting(listener: () => void): () => void;
  /** Asks the server for one. Without a server nothing happens. */
  look(): void;
  /**
   * Does `work`, the beginning of a pack, so that none can be installed meanwhile. False where one was already, or came
   * first: `work` is not done then.
   */
  unlessWaiting(work: () => Promise<void>): Promise<boolean>;
  /** Lets it take over, which loads the page anew; comes back only when it did not, and then is not tried again. */
  takeUp(): Promise<void>;
}

export interface NewVersionParts {
  readonly workers: Pick<ServiceWorkerContainer, 'ready' | 'controller' | 'addEventListener'>;
  readonly reload: () => void;
  /** None: the browser has no Web Locks. */
  readonly locks?: Pick<LockManager, 'request'>;
  /** Milliseconds for which the new version may take over. */
  readonly limitMs?: number;
}

/** What the service worker's own code listens for. */
const TAKE_OVER = { type: 'SKIP_WAITING' };
const LIMIT_MS = 10_000;
/** The service worker holds it from its last question whether a pack is open until it is installed. */
const LOCK = 'stowcall-version';

/** Watches the service worker of this page. */
export function watchVersions({ workers, reload, locks, limitMs = LIMIT_MS }: NewVersionParts): NewVersion {
  let registration: ServiceWorkerRegistration | null = null;
  let givenUp = false;
  const waiting = listeners<[]>();
  const isWaiting = (): boolean => !givenUp && registration !== null && registration.waiting !== null;
  const tell = (): void => {
    if (isWaiting()) waiting.tell();
  };
  // A page that was loaded without a worker gets its first one: nothing has been replaced.
  let replaced = workers.controller !== null;
  workers.addEventListener('controllerchange', () => {
    if (replaced) reload();
    replaced = true;
  });
  void workers.ready.then((ready) => {
    registration = ready;
    ready.addEventListener('updatefound', () => {
      ready.installing?.addEventListener('statechange', tell);
    });
    // One may be on its way already.
    ready.installing?.addEventListener('statechange', tell);
    tell();
  });
  return {
    isWaiting,
    onWaiting: waiting.add,
    unlessWaiting: async (work) => {
      const unless = async (): Promise<boolean> => {
        if (isWaiting()) return false;
        await work();
        return true;
      };
      return locks === undefined ? unless() : await locks.request(LOCK, unless);
    },
    look: () => void registration?.update().catch(() => undefined),
    takeUp: async () => {
      registration?.waiting?.postMessage(TAKE_OVER);
      await new Promise((done) => setTimeout(done, limitMs));
      givenUp = true;
    },
  };
}
