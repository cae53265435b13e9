/** A value that can be watched: what React's `useSyncExternalStore` takes, and what the runtime shares with it. */
import { listeners } from '../domain/listeners';

export interface Watchable<T> {
  get(): T;
  set(next: T): void;
  subscribe(listener: () => void): () => void;
}

/** Makes a watchable; listeners are called after each change, not for an equal value. */
export function watchable<T>(first: T): Watchable<T> {
  let value = first;
  const watching = listeners<[]>();
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return;
      value = next;
      watching.tell();
    },
    subscribe: watching.add,
  };
}
