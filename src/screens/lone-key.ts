/**
 * Tells a finger from a scanner: a scanner sends its keys in a burst, a finger presses one key with quiet around it.
 * Only a key that stands alone may give a command.
 */

export interface KeyPress {
  readonly key: string;
  readonly shift: boolean;
}

/** Quiet needed before and after a key, in milliseconds. Longer than a scanner's gaps, too short to be felt. */
export const QUIET_MS = 60;

export interface LoneKeys {
  /** A key went down at `atMs`. True when it follows another so closely that no finger can have meant it. */
  press(press: KeyPress, atMs: number): boolean;
  /** Forgets a key that still waits for its quiet. */
  drop(): void;
}

/** Calls `onLone` for each key that had quiet before it and after it. */
export function createLoneKeys(onLone: (press: KeyPress) => void): LoneKeys {
  let lastMs = Number.NEGATIVE_INFINITY;
  let waiting: ReturnType<typeof setTimeout> | null = null;
  const drop = (): void => {
    if (waiting !== null) clearTimeout(waiting);
    waiting = null;
  };
  return {
    drop,
    press: (press, atMs) => {
      const inBurst = atMs - lastMs < QUIET_MS;
      lastMs = atMs;
      drop();
      if (inBurst) return true;
      waiting = setTimeout(() => {
        waiting = null;
        onLone(press);
      }, QUIET_MS);
      return false;
    },
  };
}
