/** The service worker's guard on a real journal: an open pack keeps a new version off, and facts of no pack do not. */
import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { createStore } from '../../src/record/store/store';
import { countDraft, draftOf, SAMPLE_BODIES } from '../fakes/ledger-facts';

const GUARD = readFileSync(new URL('../../public/open-pack-guard.js', import.meta.url), 'utf8');

/** What the guard answers when a new version asks to be installed. */
async function mayInstall(): Promise<boolean> {
  let install: (event: object) => void = () => undefined;
  const listen = (_: string, listener: typeof install): void => void (install = listener);
  const self = { addEventListener: listen, registration: { active: {} } };
  runInNewContext(GUARD, { self, indexedDB, navigator: {}, setTimeout: () => undefined });
  const waits: Promise<unknown>[] = [];
  install({ waitUntil: (work: Promise<unknown>) => void waits.push(work) });
  return Promise.all(waits).then(
    () => true,
    () => false,
  );
}

it('facts that belong to no pack keep no new version off, and an open pack does', async () => {
  const store = createStore({ name: 'stowcall' });
  const opened = await store.open();
  if (!opened.ok) throw new Error(opened.detail);
  const restored = await store.append(opened.value, [draftOf('loft', SAMPLE_BODIES.restored)]);
  if (!restored.ok) throw new Error(restored.detail);
  expect(await mayInstall()).toBe(true);
  await store.append(restored.value.head, [countDraft('pack-1', 1)]);
  expect(await mayInstall()).toBe(false);
});
