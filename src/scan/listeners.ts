/** A set of listeners for one kind of event, as the eyes' `on...` methods need it. */

export interface Listeners<T extends readonly unknown[]> {
  /** Returns the function that takes the listener away again. */
  readonly add: (listener: (...args: T) => void) => () => void;
  readonly tell: (...args: T) => void;
}

/** Makes an empty set. A listener that is taken away while others are told is not called any more. */
export function listeners<T extends readonly unknown[]>(): Listeners<T> {
  const all = new Set<(...args: T) => void>();
  return {
    add: (listener) => {
      all.add(listener);
      return () => {
        all.delete(listener);
      };
    },
    tell: (...args) => {
      for (const listener of [...all]) if (all.has(listener)) listener(...args);
    },
  };
}
