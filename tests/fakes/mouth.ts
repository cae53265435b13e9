/** A voice without sound: sentences end when the test says so, or at once. */
import { ok, refused } from '../../src/domain/result';
import type { SpeakingPort, SpeakingTrouble } from '../../src/voice/speaking';

export interface FakeMouth extends SpeakingPort {
  /** Everything said so far, in order. */
  readonly said: string[];
  /** Plays the present sentence to its end. */
  finish(): Promise<void>;
}

/** `instant`: sentences end by themselves in the next turn of the event loop. */
export function fakeMouth(options: { readonly instant: boolean; readonly trouble?: SpeakingTrouble }): FakeMouth {
  const said: string[] = [];
  let ending: ((how: 'done' | 'stopped') => void) | null = null;
  const end = (how: 'done' | 'stopped'): void => {
    const finish = ending;
    ending = null;
    finish?.(how);
  };
  return {
    said,
    prepare: () =>
      Promise.resolve(
        options.trouble === undefined ? ok(undefined) : refused(options.trouble, 'The voice did not start.'),
      ),
    say: (text) => {
      end('stopped');
      if (options.trouble !== undefined) return Promise.resolve('failed');
      said.push(text);
      return new Promise((done) => {
        ending = done;
        if (options.instant) setTimeout(() => ending === done && end('done'), 0);
      });
    },
    stop: () => end('stopped'),
    finish: async () => {
      end('done');
      await Promise.resolve();
    },
  };
}
