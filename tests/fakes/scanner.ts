/** A scanner without a camera: the test lays labels before it. */
import { ok, refused } from '../../src/domain/result';
import type { RawReading, SightingPort, SightingTrouble } from '../../src/scan/sighting';

export interface FakeScanner extends SightingPort {
  see(reading: RawReading): void;
  unplug(): void;
}

export function fakeScanner(options: { readonly trouble?: SightingTrouble } = {}): FakeScanner {
  const listeners = new Set<(reading: RawReading) => void>();
  const troubleListeners = new Set<(trouble: SightingTrouble, detail: string) => void>();
  let running = false;
  return {
    start: () => {
      if (options.trouble !== undefined) return Promise.resolve(refused(options.trouble, 'The camera did not start.'));
      running = true;
      return Promise.resolve(ok(undefined));
    },
    stop: () => {
      running = false;
    },
    onReading: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    onTrouble: (listener) => {
      troubleListeners.add(listener);
      return () => troubleListeners.delete(listener);
    },
    see: (reading) => {
      if (running) for (const listener of [...listeners]) listener(reading);
    },
    unplug: () => {
      running = false;
      for (const listener of [...troubleListeners]) listener('unplugged', 'The camera was unplugged.');
    },
  };
}
