/** What can be done at most steps, behind the acts of the step's own. */
import type { Here } from '../machine/context';
import type { Act } from '../machine/legal';
import { callInspector, remaining, sayAgain, standBy } from './common-acts';
import { correctionActs } from './read-back/correction';
import { reopenActs } from './stage/reopen';
import { stopAndTag } from './stop/stop-work';

/** Asking, pausing, taking back, opening again, calling, stopping. */
export function usualActs(here: Here): readonly Act[] {
  return [
    sayAgain(here),
    remaining(here),
    standBy(here),
    ...correctionActs(here),
    ...reopenActs(here),
    ...callInspector(here),
    stopAndTag(here),
  ];
}
