/** An ear without sound: the test says what would be heard, and only an open ear passes it on. */
import type { Command } from '../../src/domain/command';
import { ok, refused } from '../../src/domain/result';
import type { Heard, HearingPort, HearingTrouble, Vocabulary } from '../../src/voice/hearing';

export interface FakeEar extends HearingPort {
  /** The open vocabulary; null while the ear is closed. */
  open(): Vocabulary | null;
  /** A person says this command: heard where it is in the open vocabulary, not heard where it is not. */
  speak(command: Command): void;
  /** Sound that is no command. */
  noise(isTooLoud?: true): void;
  unsure(candidates: readonly string[]): void;
  unplug(): void;
}

export function fakeEar(options: { readonly trouble?: HearingTrouble } = {}): FakeEar {
  const heardListeners = new Set<(heard: Heard) => void>();
  const troubleListeners = new Set<(trouble: HearingTrouble, detail: string) => void>();
  let open: Vocabulary | null = null;
  const tell = (heard: Heard): void => {
    if (open !== null) for (const listener of [...heardListeners]) listener(heard);
  };
  return {
    prepare: () =>
      Promise.resolve(
        options.trouble === undefined ? ok(undefined) : refused(options.trouble, 'The ear did not start.'),
      ),
    listen: (vocabulary) => {
      open = vocabulary;
    },
    hush: () => {
      open = null;
    },
    onHeard: (listener) => {
      heardListeners.add(listener);
      return () => heardListeners.delete(listener);
    },
    onLevel: () => () => undefined,
    onTrouble: (listener) => {
      troubleListeners.add(listener);
      return () => troubleListeners.delete(listener);
    },
    open: () => open,
    speak: (command) => {
      const legal = open?.commands.includes(command.name) ?? false;
      const nounLegal = command.name !== 'count' || (open?.nouns.includes(command.noun) ?? false);
      if (legal && nounLegal) tell({ kind: 'heard', command, words: command.name, msToDecision: 0 });
      else tell({ kind: 'notHeard' });
    },
    noise: (isTooLoud) => tell(isTooLoud === undefined ? { kind: 'notHeard' } : { kind: 'notHeard', isTooLoud }),
    unsure: (candidates) => tell({ kind: 'ambiguous', candidates }),
    unplug: () => {
      for (const listener of [...troubleListeners]) listener('unplugged', 'The microphone was unplugged.');
    },
  };
}
