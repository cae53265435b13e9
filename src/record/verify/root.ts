/** Tree hashes recomputed level by level: another way than the writer's, so that one mistake cannot hide in both. */
import { emptyRoot, nodeHash, sameHash, type Hash } from '../chain/hash';

/** RFC 6962 root of all leaves: neighbours are joined in pairs, and a last one without a neighbour goes up as it is. */
export function rootByLevels(leaves: readonly Hash[]): Hash {
  let level = leaves;
  while (level.length > 1) {
    const above: Hash[] = [];
    for (let i = 0; i < level.length; i += 2) {
      const [left, right] = [level[i], level[i + 1]];
      if (left !== undefined) above.push(right === undefined ? left : nodeHash(left, right));
    }
    level = above;
  }
  return level[0] ?? emptyRoot();
}

/** Whether the path leads from the leaf at `index` to the root of a tree of `size`, from the root's side downwards. */
export function pathLeads(claim: {
  index: number;
  size: number;
  leaf: Hash;
  root: Hash;
  path: readonly Hash[];
}): boolean {
  const { index, size, leaf, root, path } = claim;
  if (index < 0 || index >= size) return false;
  const folded = fold({ index, size, leaf }, path);
  return folded !== null && sameHash(folded, root);
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
