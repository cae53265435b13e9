/** Folds the facts of one pack, from scratch each time, so that a restart cannot differ from the run. */
import type { Fact, FactKind } from '../../domain/fact';
import { epochMs } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import { lastCorrectable, takenBackBy } from './correctable';
import { dayOfFact, laterDay } from './days';
import { CHECK_FOLDS } from './folding/checks';
import { END_FOLDS } from './folding/ends';
import type { Fold, Folding, Folds } from './folding/folding';
import { blank } from './folding/folding';
import { HOLD_FOLDS } from './folding/holds';
import { IDENTITY_FOLDS } from './folding/identity';
import { PACKER_FOLDS } from './folding/packers';
import { STAGE_FOLDS } from './folding/stages';
import { TOOL_FOLDS } from './folding/tools';
import type { PackState } from './pack-state';

const nothing = (): void => undefined;

/** What each kind of fact changes. One that is missing does not compile. */
const FOLDS: Folds<FactKind> = {
  ...PACKER_FOLDS,
  ...IDENTITY_FOLDS,
  ...CHECK_FOLDS,
  ...TOOL_FOLDS,
  ...STAGE_FOLDS,
  ...HOLD_FOLDS,
  ...END_FOLDS,
  // These say what happened beside the pack, and change nothing in it.
  verdictLapsed: nothing,
  peopleInForce: nothing,
  tagCleared: nothing,
  restored: nothing,
};

function foldOf<K extends FactKind>(kind: K): Fold<K> {
  return FOLDS[kind];
}

/** Folds a pack's facts, in their order. Unknown ids in facts have no effect; they never count as done. */
export function foldFacts(loft: Loft, facts: readonly Fact[]): PackState {
  const folding = blank();
  const takenBack = takenBackBy(facts);
  for (const fact of facts) {
    folding.latestDay = laterDay(folding.latestDay, dayOfFact(fact));
    seeActs(folding, fact);
    if (!takenBack.has(fact.seq)) foldOf(fact.body.kind)(folding, fact, loft);
  }
  folding.correctable = lastCorrectable(facts, takenBack);
  return folding;
}

/** By the later clock: one that was set back makes no break shorter. */
function seeActs(folding: Folding, { at, by, body }: Fact): void {
  if (by === null || body.kind === 'scanRefused') return;
  if (folding.lastActAt === null || epochMs(at) > epochMs(folding.lastActAt)) folding.lastActAt = at;
}
