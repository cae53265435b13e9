/** The page of the append bench: the kiosk's own store, timed from the call to the answer. */
import type { FactDraft } from '../../domain/fact';
import { createStore } from '../../record/store/store';

/** Appends `n` facts one after another and answers how many milliseconds each took. */
async function timeAppends(n: number, warmUp: number): Promise<readonly number[]> {
  const store = createStore({ name: 'append-bench' });
  const opened = await store.open();
  if (!opened.ok) throw new Error(opened.detail);
  let head = opened.value;
  const times: number[] = [];
  for (let i = 0; i < warmUp + n; i += 1) {
    const begun = performance.now();
    const appended = await store.append(head, [draft(i)]);
    const taken = performance.now() - begun;
    if (!appended.ok) throw new Error(appended.detail);
    head = appended.value.head;
    if (i >= warmUp) times.push(taken);
  }
  store.close();
  return times;
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
      value: { value: 42.25, unit: 'in' },
      expected: { value: 42, unit: 'in' },
      deviation: 0.25,
      within: true,
    },
  };
}

Object.assign(window, { timeAppends });
document.title = 'ready';

declare global {
  interface Window {
    timeAppends: typeof timeAppends;
  }
}
