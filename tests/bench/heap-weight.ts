/**
 * What a page's heap holds, from a snapshot, in parts that grow for different reasons: code that the browser compiles as
 * it learns what is used often, buffers (sound that the voice keeps, up to a limit), the browser's own objects for the
 * page, and the program's.
 */
import type { CDPSession } from '@playwright/test';

/** Bytes. */
export interface HeapWeight {
  /** Machine code, byte code and what the browser learned of each function. Bounded by the size of the program. */
  readonly code: number;
  /** Contents of array buffers. */
  readonly buffers: number;
  /** What the browser keeps for the page: nodes, styles, and its lists of timings, each up to a length. */
  readonly browser: number;
  /** Objects, strings, closures, arrays: what a leak of ours would be made of. */
  readonly objects: number;
}

/** The part of Chromium's heap snapshot that is read: nodes are rows of numbers, their columns named in `meta`. */
export interface HeapSnapshot {
  readonly snapshot: {
    readonly meta: { readonly node_fields: readonly string[]; readonly node_types: readonly unknown[] };
  };
  readonly nodes: readonly number[];
  readonly strings: readonly string[];
}

/** V8 files these under other types than `code`, and they are made and enlarged with the code they belong to. */
const CODE_PARTS = /^system \/ (WeakArrayList|ProtectedFixedArray|SharedFunctionInfoWrapper|Map|DescriptorArray)$/;
const BUFFER = 'system / JSArrayBufferData';

/** Adds up a snapshot. */
export function heapWeightOf({ snapshot: { meta }, nodes, strings }: HeapSnapshot): HeapWeight {
  const column = (name: string): number => {
    const at = meta.node_fields.indexOf(name);
    if (at < 0) throw new Error(`This browser's heap snapshots have no column "${name}": the reader must be changed`);
    return at;
  };
  const [type, name, size] = [column('type'), column('name'), column('self_size')];
  const types = meta.node_types[type];
  if (!Array.isArray(types)) throw new Error('This browser names no types in its heap snapshots');
  const weight = { code: 0, buffers: 0, browser: 0, objects: 0 };
  for (let at = 0; at < nodes.length; at += meta.node_fields.length) {
    const called = strings[nodes[at + name] ?? -1] ?? '';
    const bytes = nodes[at + size] ?? 0;
    const kind: unknown = types[nodes[at + type] ?? -1];
    if (called === BUFFER) weight.buffers += bytes;
    else if (kind === 'code' || CODE_PARTS.test(called)) weight.code += bytes;
    else if (kind === 'native') weight.browser += bytes;
    else weight.objects += bytes;
  }
  return weight;
}

/** Takes a snapshot (which collects garbage first) and adds it up. */
export async function weighHeap(devtools: CDPSession): Promise<HeapWeight> {
  const chunks: string[] = [];
  const take = ({ chunk }: { chunk: string }): void => void chunks.push(chunk);
  devtools.on('HeapProfiler.addHeapSnapshotChunk', take);
  await devtools.send('HeapProfiler.takeHeapSnapshot', { reportProgress: false });
  devtools.off('HeapProfiler.addHeapSnapshotChunk', take);
  return heapWeightOf(JSON.parse(chunks.join('')) as HeapSnapshot);
}
