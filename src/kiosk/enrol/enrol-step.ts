/** Where an enrolment stands, and what may be asked for there. */
import type { Person } from '../../domain/person';
import type { EnrolOutcome } from '../../screens/contract/enrol-view';
import { legalCommand } from '../../packing/machine/legal';
import type { LegalCommand } from '../../packing/machine/view';
import { lineOf, type Reading } from './reading';

export type Step =
  | { readonly at: 'badge' }
  | {
      readonly at: 'ready';
      readonly person: Person;
      readonly lines: number;
      /** What is kept of this voice: samples, and rows that cannot be used. */
      readonly kept: number;
      readonly damaged: number;
      /** Null where this voice may only be erased. */
      readonly mayRead: boolean;
    }
  | {
      readonly at: 'reading';
      readonly person: Person;
      readonly reading: Reading;
      /** A former voice is kept, and what is kept of this reading takes its place. */
      readonly replaces: boolean;
      /** The line is to be heard first. */
      readonly aloud: boolean;
    }
  | { readonly at: 'stopped'; readonly person: Person; readonly reading: Reading; readonly replaces: boolean }
  | { readonly at: 'storing'; readonly person: Person }
  | {
      readonly at: 'done';
      readonly person: Person;
      readonly outcome: EnrolOutcome;
      /** Lines kept, of how many. */
      readonly taken: number;
      readonly of: number;
    };

/** Nothing can be said here, so no phrase stands on the control. */
function control(name: LegalCommand['name'], label: string, main = false): LegalCommand {
  return legalCommand(name, { label, phrase: '', main });
}

const BACK = control('finish', 'Back to the start');

/** What may be pressed now; each has the key and the card that the command has everywhere. */
export function legalAt(step: Step): readonly LegalCommand[] {
  switch (step.at) {
    case 'badge':
    case 'storing':
      return [BACK];
    case 'ready': {
      const isKept = step.kept > 0 || step.damaged > 0;
      return [
        ...(step.mayRead ? [control('affirm', isKept ? 'Read again' : 'Begin reading', true)] : []),
        ...(isKept ? [control('correction', 'Erase my voice', !step.mayRead)] : []),
        BACK,
      ];
    }
    case 'reading':
      return [
        control('finish', 'Stop reading', true),
        control('sayAgain', 'Hear this line'),
        control('next', 'Leave this line out'),
      ];
    case 'stopped':
      return [control('affirm', 'Keep these lines', true), control('negative', 'Keep nothing', true)];
    case 'done':
      return [{ ...BACK, main: true }];
  }
}

/** The line to be heard now; null while none is read. */
export function lineAt(step: Step): string | null {
  return step.at === 'reading' ? lineOf(step.reading) : null;
}
