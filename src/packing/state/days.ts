/** Which days a standing or a date is judged by: a clock that was set back must not make anything good again. */
import { assert } from '../../domain/assert';
import type { CheckLine } from '../../domain/check-line';
import type { Fact } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import { dateOf } from '../../domain/instant';
import type { PlainDate } from '../../domain/plain-date';
import { compareDates } from '../../domain/plain-date';
import type { Result } from '../../domain/result';
import { cut } from '../words/bounded';

/** The later of two days; null for none. */
export function laterDay(one: PlainDate | null, other: PlainDate | null): PlainDate | null {
  if (one === null || other === null) return one ?? other;
  return compareDates(one, other) >= 0 ? one : other;
}

/** The latest day that this fact knows of: its own, or that of the journal when it was made. */
export function dayOfFact({ at, body }: Pick<Fact, 'at' | 'body'>): PlainDate | null {
  const known = body.kind === 'packOpened' || body.kind === 'restarted' ? (body.journalDay ?? null) : null;
  return laterDay(dateOf(at), known);
}

/** The latest day that any of these facts knows of; null for none. */
export function latestDay(facts: readonly Fact[]): PlainDate | null {
  return facts.map(dayOfFact).reduce(laterDay, null);
}

/**
 * The days that count at this moment: today by the clock at the table and, where the journal has seen a later one, that
 * one too. What is asked of a day must hold on each of them.
 */
export function judgedDays(latest: PlainDate | null, at: Instant): readonly PlainDate[] {
  const today = dateOf(at);
  return latest !== null && compareDates(latest, today) > 0 ? [today, latest] : [today];
}

/** The first refusal on any of the days; what the last day says where there is none. */
export function onEachDay<T, R extends string>(
  days: readonly PlainDate[],
  judge: (on: PlainDate) => Result<T, R>,
): Result<T, R> {
  const judged = days.map(judge);
  const said = judged.find((one) => !one.ok) ?? judged.at(-1);
  assert(said !== undefined, 'there is a day to judge by');
  return said;
}

/** Lines of a check on each of the days, each line once: as it failed, where it failed on any of them. */
export function linesOnEachDay(
  days: readonly PlainDate[],
  check: (on: PlainDate) => readonly CheckLine[],
): readonly CheckLine[] {
  const [first, ...more] = days;
  if (first !== undefined && more.length === 0) return check(first);
  const lines = new Map<string, CheckLine>();
  for (const line of days.flatMap(check)) {
    if (lines.get(line.label)?.passed !== false) lines.set(line.label, line);
  }
  return [...lines.values()];
}

/** What failed, for telling two results apart: in the words that are stored. */
export function whatFailed(checks: readonly CheckLine[]): string {
  return JSON.stringify(checks.filter((line) => !line.passed).map(({ label, detail }) => [cut(label), cut(detail)]));
}
