/** Tree hashes recomputed level by level: another way than the writer's, so that one mistake cannot hide in both. */
import { hexAt, sha256, Sha256 } from './sha256';

type Hash = Uint8Array;

/** Every level of the tree, from the leaves up; each one buffer with the hashes side by side. */
export type Levels = readonly Uint8Array[];

const LEAF = 0x00;
const NODE = 0x01;
const hasher = new Sha256();

/** RFC 6962 leaf hash of these bytes, written into `out` at the index-th place. */
export function leafInto(out: Uint8Array, index: number, bytes: Uint8Array): void {
  hasher
    .begin()
    .byte(LEAF)
    .take(bytes)
    .end(out, 32 * index);
}

/** RFC 6962 leaf hash. */
export function leafOf(bytes: Uint8Array): Hash {
  const out = new Uint8Array(32);
  leafInto(out, 0, bytes);
  return out;
}

function nodeOf(left: Hash, right: Hash): Hash {
  const out = new Uint8Array(32);
  hasher.begin().byte(NODE).take(left).take(right).end(out);
  return out;
}

/** The last level's only hash; that of nothing where there are no leaves. */
export function topOf(levels: Levels): Hash {
  const top = levels.at(-1);
  return top === undefined || top.length === 0 ? sha256(new Uint8Array(0)) : top.slice(0, 32);
}

/** Neighbours are joined in pairs, and a last one without a neighbour goes up as it is. */
export function levelsOf(leaves: Uint8Array): Levels {
  const levels = [leaves];
  for (let level = leaves; level.length > 32; levels.push(level)) {
    const count = level.length / 32;
    const above = new Uint8Array(32 * Math.ceil(count / 2));
    for (let i = 0; i + 1 < count; i += 2) {
      hasher
        .begin()
        .byte(NODE)
        .take(level, 32 * i, 32 * i + 64)
        .end(above, 16 * i);
    }
    if (count % 2 === 1) above.set(level.subarray(level.length - 32), above.length - 32);
    level = above;
  }
  return levels;
}

/** The root, in hex, when there were only the first `size` leaves; null where there never were so many. */
export function rootAt(levels: Levels, size: number): string | null {
  if (size > (levels[0]?.length ?? 0) / 32) return null;
  const root = size === 0 ? sha256(new Uint8Array(0)) : rangeRoot(levels, 0, size);
  return root === null ? null : hexAt(root);
}

/** RFC 6962 section 2.1: the largest power of two below the length goes to the left. `from` is a multiple of it. */
function rangeRoot(levels: Levels, from: number, to: number): Hash | null {
  const length = to - from;
  const height = Math.log2(length);
  if (Number.isInteger(height)) {
    // A perfect subtree stands ready in its level.
    const at = 32 * (from / length);
    return levels[height]?.subarray(at, at + 32) ?? null;
  }
  const left = 2 ** Math.floor(height);
  const [a, b] = [rangeRoot(levels, from, from + left), rangeRoot(levels, from + left, to)];
  return a === null || b === null ? null : nodeOf(a, b);
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
  return folded !== null && hexAt(folded) === hexAt(claim.root);
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
    return inner === null ? null : nodeOf(inner, sibling);
  }
  const inner = fold({ index: index - left, size: size - left, leaf }, rest);
  return inner === null ? null : nodeOf(sibling, inner);
}
