/** How far apart two phrases sound: a weighted edit distance over their phones. */
import { ok, refused } from '../result';
import type { Result } from '../result';
import { deletionCost, phoneDistance } from './phone';
import type { Phones, Pronunciations } from './pronunciations';

/** How many pronunciation variants of a whole phrase are compared. */
const VARIANTS_MAX = 16;

/** The pronunciation variants of a phrase, each as one string of phones. Refusal `no-pronunciation`: a word that is not known. */
export function pronounce(phrase: string, known: Pronunciations): Result<readonly Phones[], 'no-pronunciation'> {
  let variants: Phones[] = [[]];
  for (const word of phrase.split(' ')) {
    const own = known.get(word);
    if (own === undefined) {
      return refused('no-pronunciation', `"${word}" has no pronunciation; add it to grammars/pronunciations.txt.`);
    }
    variants = variants.flatMap((variant) => own.map((phones) => [...variant, ...phones])).slice(0, VARIANTS_MAX);
  }
  return ok(variants);
}

/** Weighted edit distance of two strings of phones. */
export function phonesDistance(a: Phones, b: Phones): number {
  const deletions = b.map(deletionCost);
  const row = [0];
  for (const loss of deletions) row.push((row[row.length - 1] ?? 0) + loss);
  for (const from of a) {
    const loss = deletionCost(from);
    // The cell diagonally above, kept because the new row overwrites it.
    let before = row[0] ?? 0;
    row[0] = before + loss;
    for (let at = 0; at < b.length; at += 1) {
      const above = row[at + 1] ?? 0;
      const gained = (row[at] ?? 0) + (deletions[at] ?? 0);
      const changed = before + phoneDistance(from, b[at] ?? '');
      row[at + 1] = Math.min(above + loss, gained, changed);
      before = above;
    }
  }
  return row[row.length - 1] ?? 0;
}

/** Distance of the two nearest variants of two phrases. One unit is about one clear phone. */
export function variantsDistance(a: readonly Phones[], b: readonly Phones[]): number {
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
  const variants: (readonly Phones[])[] = [];
  for (const { phrase } of phrases) {
    const variant = pronounce(phrase, known);
    if (!variant.ok) return variant;
    variants.push(variant.value);
  }
  const pairs = phrases.flatMap((a, i) =>
    phrases.slice(i + 1).flatMap((b, j) => {
      if (same(a, b)) return [];
      return [{ a, b, distance: variantsDistance(variants[i] ?? [], variants[i + 1 + j] ?? []) }];
    }),
  );
  return ok(pairs.sort((x, y) => x.distance - y.distance));
}
