/**
 * Tells key presses from a keyboard-style scanner, by timing: a scanner sends its keys in a burst, a finger presses one
 * key with a pause before and after it. Only such a key may give a command.
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
  /** A key came up whose going down was taken by the scanner's reader: a scan is going on. */
  stir(atMs: number): void;
  /** Forgets a key that still waits for its quiet. */
  drop(): void;
}

/** Scanners can be set to send one of these before or after each scan. */
function isFunctionKey(key: string): boolean {
  return /^F\d+$/.test(key);
}

/** Calls `onLone` for each key that had quiet before it and after it. */
export function createLoneKeys(onLone: (press: KeyPress) => void): LoneKeys {
  let lastMs = Number.NEGATIVE_INFINITY;
  let scanMs = Number.NEGATIVE_INFINITY;
  let waiting: { readonly key: string; readonly timer: ReturnType<typeof setTimeout> } | null = null;
  const drop = (): void => {
    if (waiting !== null) clearTimeout(waiting.timer);
    waiting = null;
  };
  return {
    drop,
    stir: (atMs) => {
      scanMs = atMs;
      if (waiting !== null && isFunctionKey(waiting.key)) drop();
    },
    press: (press, atMs) => {
      const inScan = isFunctionKey(press.key) && atMs - scanMs < QUIET_MS;
      const inBurst = inScan || atMs - lastMs < QUIET_MS;
      lastMs = atMs;
      drop();
      if (inBurst) return true;
      const timer = setTimeout(() => {
        waiting = null;
        onLone(press);
      }, QUIET_MS);
      waiting = { key: press.key, timer };
      return false;
    },
  };
}
