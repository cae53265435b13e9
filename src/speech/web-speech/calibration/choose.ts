/** Chooses a pair of thresholds from what came of each trial at each of them. */

export interface Candidate {
  /** How far a phrase may lie behind the filler model. */
  readonly filler: number;
  /** By how much it must be better than every other phrase. */
  readonly rival: number;
}

export interface Counts {
  readonly commands: number;
  readonly obeyed: number;
  readonly wrong: number;
  readonly others: number;
  readonly falselyAccepted: number;
}

export interface Trial {
  /** The phrase that was said; null for other speech. */
  readonly said: string | null;
  /** The phrase that is obeyed at this candidate; null for none. */
  obeyed(candidate: Candidate): string | null;
}

/** In words, for the data and the reader. */
export const CHOICE_RULE =
  'at most 1 in 200 commands wrong and 3 in 1000 others falsely accepted (the aims), or else fewest above that; then most obeyed, then in noise the strictest and in quiet the laxest (numbers in our own commands are nearer to one another than any of these words), and nothing laxer than what was set by hand before. High risk in noise: errors are counted one step of the grid on the lax side, so that the edge is kept clear of';

const WRONG_MOST = 1 / 200;
const ACCEPTED_MOST = 3 / 1000;

/** Errors above what is allowed. */
function excessOf({ commands, wrong, others, falselyAccepted }: Counts): number {
  const wrongMore = wrong - Math.floor(WRONG_MOST * commands);
  const acceptedMore = falselyAccepted - Math.floor(ACCEPTED_MOST * others);
  return Math.max(0, wrongMore) + Math.max(0, acceptedMore);
}

export function countTrials(trials: readonly Trial[], candidate: Candidate): Counts {
  const counts = { commands: 0, obeyed: 0, wrong: 0, others: 0, falselyAccepted: 0 };
  for (const trial of trials) {
    const done = trial.obeyed(candidate);
    if (trial.said === null) {
      counts.others += 1;
      if (done !== null) counts.falselyAccepted += 1;
    } else {
      counts.commands += 1;
      if (done === trial.said) counts.obeyed += 1;
      else if (done !== null) counts.wrong += 1;
    }
  }
  return counts;
}

export interface Grid {
  /** Rising: from strict to lax. */
  readonly fillers: readonly number[];
  /** Rising: from lax to strict. */
  readonly rivals: readonly number[];
}

export interface Choice {
  /** Candidates that may not be chosen are passed over. */
  readonly mayBe: (candidate: Candidate) => boolean;
  /** Steps of the grid on the lax side at which errors are counted. */
  readonly room: 0 | 1;
  /** Which of several equally good ones. */
  readonly ofEquals: 'strictest' | 'laxest';
}

/** The best candidate of the grid by the rule, with its own counts. */
export function choose(
  trials: readonly Trial[],
  { fillers, rivals }: Grid,
  { mayBe, room, ofEquals }: Choice,
): { readonly candidate: Candidate; readonly counts: Counts } {
  const ranked = fillers.flatMap((filler, row) =>
    rivals.flatMap((rival, column) => {
      const candidate = { filler, rival };
      if (!mayBe(candidate)) return [];
      const laxer = { filler: fillers[row + room] ?? filler, rival: rivals[column - room] ?? rival };
      return [{ candidate, excess: excessOf(countTrials(trials, laxer)), counts: countTrials(trials, candidate) }];
    }),
  );
  const sign = ofEquals === 'strictest' ? 1 : -1;
  ranked.sort(
    (a, b) =>
      a.excess - b.excess ||
      b.counts.obeyed - a.counts.obeyed ||
      sign * (a.candidate.filler - b.candidate.filler || b.candidate.rival - a.candidate.rival),
  );
  const [best] = ranked;
  if (best === undefined) throw new Error('no candidate may be chosen');
  return best;
}
