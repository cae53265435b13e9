/** Whoever wants to be told of one kind of event, as the `on...` methods of the ports need it. */

export interface Listeners<T extends readonly unknown[]> {
  /** Returns the function that takes the listener away again. */
  readonly add: (listener: (...args: T) => void) => () => void;
  readonly tell: (...args: T) => void;
}

/**
 * Nobody yet. A listener that is taken away while others are told is not called any more, and one that is added then
 * is called from the next time on.
 */
export function listeners<T extends readonly unknown[]>(): Listeners<T> {
  const all = new Set<(...args: T) => void>();
  return {
    add: (listener) => {
      all.add(listener);
      return () => void all.delete(listener);
    },
    tell: (...args) => {
      for (const listener of [...all]) if (all.has(listener)) listener(...args);
    },
  };
}
