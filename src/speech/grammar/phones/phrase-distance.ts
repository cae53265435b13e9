/** How far apart two phrases sound: a weighted edit distance over their phones. */
import { ok, refused } from '../result';
import type { Result } from '../result';
import { lossOf, phoneDistance } from './phone';
import type { Phones, Pronunciations } from './pronunciations';

/** Ways to say a whole phrase that are looked at. */
const WAYS_MAX = 16;

/** The ways to say a phrase, each as one run of phones. Refusal `no-pronunciation`: a word that is not known. */
export function pronounce(phrase: string, known: Pronunciations): Result<readonly Phones[], 'no-pronunciation'> {
  let ways: Phones[] = [[]];
  for (const word of phrase.split(' ')) {
    const own = known.get(word);
    if (own === undefined) {
      return refused('no-pronunciation', `"${word}" has no pronunciation; add it to grammars/pronunciations.txt.`);
    }
    ways = ways.flatMap((way) => own.map((phones) => [...way, ...phones])).slice(0, WAYS_MAX);
  }
  return ok(ways);
}

/** Least cost of turning one run of phones into the other. */
export function phonesDistance(a: Phones, b: Phones): number {
  const losses = b.map(lossOf);
  const row = [0];
  for (const loss of losses) row.push((row[row.length - 1] ?? 0) + loss);
  for (const from of a) {
    const loss = lossOf(from);
    // What stands in the row one place back and one run up, where the new row has already overwritten it.
    let before = row[0] ?? 0;
    row[0] = before + loss;
    for (let at = 0; at < b.length; at += 1) {
      const above = row[at + 1] ?? 0;
      const gained = (row[at] ?? 0) + (losses[at] ?? 0);
      const changed = before + phoneDistance(from, b[at] ?? '');
      row[at + 1] = Math.min(above + loss, gained, changed);
      before = above;
    }
  }
  return row[row.length - 1] ?? 0;
}

/** Distance of the two nearest ways to say two phrases. One unit is about one clear phone. */
export function waysDistance(a: readonly Phones[], b: readonly Phones[]): number {
  return Math.min(...a.flatMap((one) => b.map((other) => phonesDistance(one, other))));
}

export interface Spoken<T> {
  readonly phrase: string;
  readonly of: T;
}

export interface Pair<T> {
  readonly a: Spoken<T>;
  readonly b: Spoken<T>;
  readonly distance: number;
}

/**
 * The pairs of phrases that stand for different things, nearest first.
 * `same` tells when two may sound alike because they mean the same.
 */
export function nearestPairs<T>(
  phrases: readonly Spoken<T>[],
  known: Pronunciations,
  same: (a: Spoken<T>, b: Spoken<T>) => boolean,
): Result<readonly Pair<T>[], 'no-pronunciation'> {
  const ways: (readonly Phones[])[] = [];
  for (const { phrase } of phrases) {
    const way = pronounce(phrase, known);
    if (!way.ok) return way;
    ways.push(way.value);
  }
  const pairs = phrases.flatMap((a, i) =>
    phrases.slice(i + 1).flatMap((b, j) => {
      if (same(a, b)) return [];
      return [{ a, b, distance: waysDistance(ways[i] ?? [], ways[i + 1 + j] ?? []) }];
    }),
  );
  return ok(pairs.sort((x, y) => x.distance - y.distance));
}
