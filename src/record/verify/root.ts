/** Tree hashes recomputed level by level: another way than the writer's, so that one mistake cannot hide in both. */
import { emptyRoot, nodeHash, sameHash, type Hash } from '../chain/hash';

/** RFC 6962 root of all leaves: neighbours are joined in pairs, and a last one without a neighbour goes up as it is. */
export function rootByLevels(leaves: readonly Hash[]): Hash {
  return levelsOf(leaves).at(-1)?.[0] ?? emptyRoot();
}

/** Every level of the tree, from the leaves up. */
export function levelsOf(leaves: readonly Hash[]): readonly (readonly Hash[])[] {
  const levels = [leaves];
  for (let level = leaves; level.length > 1; levels.push(level)) {
    const above: Hash[] = [];
    for (let i = 0; i < level.length; i += 2) {
      const [left, right] = [level[i], level[i + 1]];
      if (left !== undefined) above.push(right === undefined ? left : nodeHash(left, right));
    }
    level = above;
  }
  return levels;
}

/** The root when there were only the first `size` leaves; null where there never were so many. */
export function rootAt(levels: readonly (readonly Hash[])[], size: number): Hash | null {
  if (size > (levels[0]?.length ?? 0)) return null;
  return size === 0 ? emptyRoot() : rangeRoot(levels, 0, size);
}

/** RFC 6962 section 2.1: the largest power of two below the length goes to the left. `from` is a multiple of it. */
function rangeRoot(levels: readonly (readonly Hash[])[], from: number, to: number): Hash | null {
  const length = to - from;
  const height = Math.log2(length);
  // A perfect subtree stands ready in its level.
  if (Number.isInteger(height)) return levels[height]?.[from / length] ?? null;
  const left = 2 ** Math.floor(height);
  const [a, b] = [rangeRoot(levels, from, from + left), rangeRoot(levels, from + left, to)];
  return a === null || b === null ? null : nodeHash(a, b);
}

/** Whether the path leads from the leaf at `index` to the root of a tree of `size`, from the root's side downwards. */
export function pathLeads(claim: {
  index: number;
  size: number;
  leaf: Hash;
  root: Hash;
  path: readonly Hash[];
}): boolean {
  const folded = rootOfPath(claim);
  return folded !== null && sameHash(folded, claim.root);
}

/** The root to which the path leads; null where it is too short or too long. */
export function rootOfPath(claim: { index: number; size: number; leaf: Hash; path: readonly Hash[] }): Hash | null {
  const { index, size, leaf, path } = claim;
  return index < 0 || index >= size ? null : fold({ index, size, leaf }, path);
}

/** The root of the subtree that holds the leaf; null where the path is too short or too long. */
function fold(at: { index: number; size: number; leaf: Hash }, path: readonly Hash[]): Hash | null {
  const { index, size, leaf } = at;
  if (size === 1) return path.length === 0 ? leaf : null;
  const sibling = path.at(-1);
  if (sibling === undefined) return null;
  // RFC 6962 section 2.1: the left side holds the largest power of two that is smaller than the size.
  let left = 1;
  while (left * 2 < size) left *= 2;
  const rest = path.slice(0, -1);
  if (index < left) {
    const inner = fold({ index, size: left, leaf }, rest);
    return inner === null ? null : nodeHash(inner, sibling);
  }
  const inner = fold({ index: index - left, size: size - left, leaf }, rest);
  return inner === null ? null : nodeHash(sibling, inner);
}
