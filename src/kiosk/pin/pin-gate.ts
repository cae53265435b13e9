/**
 * Holds a badge back until its PIN has been entered on the pad, then hands it on with what came of it. It decides
 * nothing: a badge handed on without the PIN that the loft wants is turned away by the pack.
 */
import { PIN_LENGTH } from '../../domain/pin';
import type { Person } from '../../domain/person';
import type { Sighting } from '../../domain/sighting';
import type { PinView } from '../../screens/contract/pin-view';

export interface PinGateParts {
  readonly pinFits: (pin: string, stored: string) => Promise<boolean>;
  /** The badge goes on to the pack. */
  readonly handOn: (sighting: Sighting) => void;
  readonly onChange: () => void;
  /** After so long the pad closes: whoever scanned the badge has gone. */
  readonly waitMs: number;
}

interface Asked {
  readonly person: Person;
  readonly sighting: Sighting;
}

export interface PinGate {
  /** Null: no PIN is being asked for. */
  view(): PinView | null;
  /** Asks for the PIN of this person; a PIN that is being asked for already is forgotten. */
  ask(person: Person, sighting: Sighting): void;
  enter(digits: string): Promise<void>;
  cancel(): void;
}

export function createPinGate(parts: PinGateParts): PinGate {
  let asked: Asked | null = null;
  let isChecking = false;
  let timer: ReturnType<typeof setTimeout> | null = null;
  let asks = 0;

  const close = (): void => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    asked = null;
    isChecking = false;
  };
  const cancel = (): void => {
    close();
    parts.onChange();
  };

  return {
    view: () =>
      asked === null ? null : { key: `pin:${String(asks)}`, person: asked.person.name, checking: isChecking },
    ask: (person, sighting) => {
      close();
      asked = { person, sighting };
      asks += 1;
      timer = setTimeout(cancel, parts.waitMs);
      parts.onChange();
    },
    enter: async (digits) => {
      const now = asked;
      if (now === null || isChecking || digits.length < PIN_LENGTH.least || digits.length > PIN_LENGTH.most) return;
      isChecking = true;
      parts.onChange();
      const fits = await parts.pinFits(digits, now.person.pin ?? '');
      // Another badge was scanned meanwhile, or the pad was closed: this answer is for nobody.
      if (asked !== now) return;
      close();
      const { sighting } = now;
      if (sighting.meaning.kind === 'badge') {
        const meaning = { ...sighting.meaning, pin: fits ? 'fits' : 'wrong' } as const;
        parts.handOn({ ...sighting, meaning });
      }
      parts.onChange();
    },
    cancel,
  };
}
