/** The checks at check-in, and whenever they are made again. */
import { dateOf } from '../../../domain/instant';
import { whatFailed } from '../days';
import type { FactOf, Folding, Folds } from './folding';

type CheckKind = 'checkInPassed' | 'checkInFailed' | 'recheckPassed' | 'recheckFailed';

function takeChecks(folding: Folding, { at, body }: FactOf<CheckKind>): void {
  const { kind, checks } = body;
  const passed = (kind === 'checkInPassed' || kind === 'recheckPassed') && checks.every((line) => line.passed);
  if (kind === 'checkInPassed' || kind === 'checkInFailed') folding.checkIn = { passed, checks };
  else folding.recheckFailed = passed ? null : checks;
  folding.checked = { on: folding.latestDay ?? dateOf(at), failed: whatFailed(checks) };
}

export const CHECK_FOLDS: Folds<CheckKind> = {
  checkInPassed: takeChecks,
  checkInFailed: takeChecks,
  recheckPassed: takeChecks,
  recheckFailed: takeChecks,
};
