/** Hashes of the journal's upper nodes, kept once they were read: every proof leads through the same few of them. */
import type { Hash } from '../chain/hash';
import type { NodeKey } from '../chain/tree-shape';

export interface NodeMemory {
  /** Null where it is not known. */
  get(key: NodeKey): Hash | null;
  /** A finished node never changes; low ones are not kept, since hardly any proof meets them again. */
  keep(key: NodeKey, hash: Hash): void;
  /** True when there was something to forget. */
  forget(): boolean;
}

/** Nodes over 2^8 facts and more: some four thousand of them for each half million facts. */
const LOWEST = 8;
const MOST = 4_096;

/** An empty memory; one for each open journal. */
export function createNodeMemory(): NodeMemory {
  const hashes = new Map<string, Hash>();
  const nameOf = ({ height, index }: NodeKey): string => `${height}:${index}`;
  const forget = (): boolean => {
    const had = hashes.size > 0;
    hashes.clear();
    return had;
  };
  return {
    get: (key) => hashes.get(nameOf(key)) ?? null,
    keep: (key, hash) => {
      if (key.height < LOWEST) return;
      if (hashes.size >= MOST) forget();
      hashes.set(nameOf(key), hash);
    },
    forget,
  };
}
