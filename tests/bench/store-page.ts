/** The page of the store's benches: the kiosk's own store, timed from the call to the answer. */
import type { FactDraft } from '../../src/domain/fact';
import { createStore } from '../../src/record/store/store';

export interface OpenTimes {
  /** Milliseconds. */
  readonly open: number;
  /** One pack of a hundred facts. */
  readonly read: number;
  /** Proof of one fact, the first after the start; and the median and 95th percentile of hundred others. */
  readonly proveFirst: number;
  readonly prove: number;
  readonly proveP95: number;
  /** Every fact checked. */
  readonly audit: number;
}

const storeBench = {
  /** Appends `n` facts one after another and answers how many milliseconds each took. */
  async timeAppends(n: number, warmUp: number): Promise<readonly number[]> {
    const times: number[] = [];
    await appendAll({ name: 'append-bench', facts: warmUp + n, batch: 1 }, (ms) => times.push(ms));
    return times.slice(warmUp);
  },

  /** Fills the journal that `timeOpen` opens. */
  fill: (facts: number): Promise<void> => appendAll({ name: 'open-bench', facts, batch: 500 }, () => undefined),

  async timeOpen(): Promise<OpenTimes> {
    const store = createStore({ name: 'open-bench' });
    const [open, head] = await timed(() => store.open());
    if (!head.ok) throw new Error(head.detail);
    const middle = Math.floor(head.value.size / 2);
    const [read, pack] = await timed(() => store.read(`pack-${Math.floor(middle / 100)}`));
    const [proveFirst, proof] = await timed(() => store.prove(middle));
    const proofs: number[] = [];
    for (let n = 0; n < 100; n += 1) proofs.push((await timed(() => store.prove((n * 1_999) % head.value.size)))[0]);
    proofs.sort((a, b) => a - b);
    const [prove, proveP95] = [proofs[49] ?? Number.NaN, proofs[94] ?? Number.NaN];
    const [audit, found] = await timed(() => store.audit());
    for (const result of [pack, proof, found]) if (!result.ok) throw new Error(result.detail);
    if (found.ok && found.value.damages.length > 0) throw new Error('The journal of the bench is damaged');
    store.close();
    return { open, read, proveFirst, prove, proveP95, audit };
  },
};

interface Filling {
  readonly name: string;
  readonly facts: number;
  readonly batch: number;
}

async function appendAll({ name, facts, batch }: Filling, onAppend: (ms: number) => void): Promise<void> {
  const store = createStore({ name });
  const opened = await store.open();
  if (!opened.ok) throw new Error(opened.detail);
  let head = opened.value;
  for (let i = 0; i < facts; i += batch) {
    const drafts = Array.from({ length: Math.min(batch, facts - i) }, (_, n) => draft(i + n));
    const [ms, appended] = await timed(() => store.append(head, drafts));
    if (!appended.ok) throw new Error(appended.detail);
    head = appended.value.head;
    onAppend(ms);
  }
  store.close();
}

async function timed<T>(work: () => Promise<T>): Promise<readonly [number, T]> {
  const begun = performance.now();
  const result = await work();
  return [performance.now() - begun, result];
}

/** A fact of usual length; a new pack every hundred. */
function draft(i: number): FactDraft {
  return {
    pack: `pack-${Math.floor(i / 100)}`,
    at: '2026-11-25T14:03:11.250+01:00',
    by: 'packer-1',
    body: {
      kind: 'measured',
      stage: `stage-${i % 30}`,
      value: { value: 37.25, unit: 'in' },
      expected: { value: 37, unit: 'in' },
      deviation: 0.25,
      within: true,
    },
  };
}

Object.assign(window, { storeBench });
document.title = 'ready';

declare global {
  interface Window {
    storeBench: typeof storeBench;
  }
}
