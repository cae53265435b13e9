/** The page of the ledger's browser tests: the real store on the browser's real IndexedDB, driven from outside. */
import type { Fact } from '../../../src/domain/fact';
import type { Result } from '../../../src/domain/result';
import type { Head, LedgerFailure } from '../../../src/record/ledger';
import { createStore, type Store } from '../../../src/record/store/store';
import { releaseTable, takeTable, waitForTable } from '../../../src/record/store/table-lock';
import { runLedgerCases } from '../../conformance/ledger';
import { countDraft, draftOf, SAMPLE_BODIES } from '../../fakes/ledger-facts';

export interface Inspection {
  readonly opened: Result<Head, LedgerFailure>;
  /** Facts of all packs that can be read, in order. */
  readonly facts: readonly Fact[];
  readonly damages: readonly { readonly seq: number | null; readonly detail: string }[];
  readonly auditedHead: Head | null;
  readonly msToOpen: number;
}

const stores = new Map<string, Store>();

/** The store of this name in this page, opened once. */
async function openStore(name: string): Promise<{ store: Store; opened: Result<Head, LedgerFailure> }> {
  const store = stores.get(name) ?? createStore({ name });
  stores.set(name, store);
  return { store, opened: await store.open() };
}

async function must(name: string): Promise<{ store: Store; head: Head }> {
  const { store, opened } = await openStore(name);
  if (!opened.ok) throw new Error(opened.detail);
  return { store, head: opened.value };
}

/** Work on the facts of a journal without the store: what `begin` gives is asked for the answer at the end. */
function inFacts(
  name: string,
  mode: IDBTransactionMode,
  begin: (facts: IDBObjectStore) => () => string,
): Promise<string> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(name);
    opening.onerror = () => reject(new Error(String(opening.error)));
    opening.onsuccess = () => {
      const tx = opening.result.transaction('facts', mode);
      const answer = begin(tx.objectStore('facts'));
      tx.onabort = () => reject(new Error(String(tx.error)));
      tx.oncomplete = () => {
        opening.result.close();
        resolve(answer());
      };
    };
  });
}

const held = new Map<string, Awaited<ReturnType<typeof must>>>();

const ledgerPage = {
  runCases: () => {
    const run = crypto.randomUUID();
    return runLedgerCases((name) => ({ page: () => createStore({ name: `${run}-${name}` }) }));
  },

  /**
   * Appends back to back until the page dies: batches of one to three facts in the pack `run-<run>`, each batch with a
   * stage name of its own. Every answer is reported at once.
   */
  async appendForEver(name: string, run: number): Promise<void> {
    const { store, head } = await must(name);
    let at = head;
    for (let batch = 0; ; batch += 1) {
      const length = (batch % 3) + 1;
      const drafts = Array.from({ length }, (_, i) =>
        draftOf(`run-${run}`, { kind: 'counted', stage: `batch-${batch}-of-${length}`, noun: 'lines', count: i }),
      );
      const appended = await store.append(at, drafts);
      if (!appended.ok) throw new Error(appended.detail);
      at = appended.value.head;
      window.acknowledge(at);
    }
  },

  /** Opens it for a later `fill`, which then begins at the head of now. */
  async hold(name: string): Promise<void> {
    held.set(name, await must(name));
  },

  /** Appends `facts` facts in batches of `batch`, a pack for every hundred facts. */
  async fill(name: string, facts: number, batch: number): Promise<Head> {
    const { store, head } = held.get(name) ?? (await must(name));
    let at = head;
    while (at.size < head.size + facts) {
      const from = at.size;
      const length = Math.min(batch, head.size + facts - from);
      const drafts = Array.from({ length }, (_, i) =>
        countDraft(`pack-${Math.floor((from + i) / 100)}`, (from + i) % 1_000_000),
      );
      const appended = await store.append(at, drafts);
      if (!appended.ok) throw new Error(appended.detail);
      at = appended.value.head;
    }
    return at;
  },

  /** Opens, reads and audits the whole journal. */
  async inspect(name: string, packs: readonly string[]): Promise<Inspection> {
    const begun = performance.now();
    const { store, opened } = await openStore(name);
    const msToOpen = performance.now() - begun;
    const read = await Promise.all(packs.map((pack) => store.read(pack)));
    const audit = await store.audit();
    return {
      opened,
      facts: read.flatMap((pack) => (pack.ok ? pack.value : [])).sort((a, b) => a.seq - b.seq),
      damages: audit.ok ? audit.value.damages : [{ seq: null, detail: audit.detail }],
      auditedHead: audit.ok ? audit.value.head : null,
      msToOpen,
    };
  },

  /** Appends facts of about 8 kB until one is refused; how many were stored, and the refusal. */
  async appendUntilRefused(name: string, atMost: number): Promise<{ stored: number; reason: string; detail: string }> {
    const { store, head } = await must(name);
    let at = head;
    for (let stored = 0; stored < atMost; stored += 1) {
      const payload = Array.from({ length: 8_000 }, () => String.fromCharCode(97 + Math.random() * 26)).join('');
      const appended = await store.append(at, [draftOf('pack-full', { ...SAMPLE_BODIES.scanRefused, payload })]);
      if (!appended.ok) return { stored, reason: appended.reason, detail: appended.detail };
      at = appended.value.head;
    }
    return { stored: atMost, reason: 'none', detail: '' };
  },

  async appendOne(name: string): Promise<Result<Head, LedgerFailure>> {
    const { store } = await openStore(name);
    const head = await store.head();
    if (!head.ok) return head;
    const appended = await store.append(head.value, [countDraft('pack-one', 1)]);
    return appended.ok ? { ok: true, value: appended.value.head } : appended;
  },

  /** What the browser itself says of the durability of the transactions that an append begins. */
  async durabilityOfAppend(name: string): Promise<readonly string[]> {
    const begin = IDBDatabase.prototype.transaction;
    const seen: string[] = [];
    // Opening fills a database of its own, which is not part of the append.
    await must(name);
    IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...args) {
      const tx = begin.apply(this, args);
      if (tx.mode === 'readwrite') seen.push(tx.durability);
      return tx;
    };
    await ledgerPage.appendOne(name);
    IDBDatabase.prototype.transaction = begin;
    return seen;
  },

  /** Opens the database as a kiosk with a newer layout would. */
  upgrade: (name: string, version: number) =>
    new Promise<number>((resolve, reject) => {
      const request = indexedDB.open(name, version);
      request.onsuccess = () => {
        resolve(request.result.version);
        request.result.close();
      };
      request.onerror = () => reject(new Error(String(request.error)));
      request.onblocked = () => reject(new Error('blocked'));
    }),

  /** Changes one byte of a stored fact, past the store's own code. */
  corrupt: (name: string, seq: number) =>
    inFacts(name, 'readwrite', (facts) => {
      const reading = facts.get(seq) as IDBRequest<{ bytes: Uint8Array }>;
      reading.onsuccess = () => facts.put({ ...reading.result, bytes: reading.result.bytes.with(40, 0x21) });
      return () => '';
    }),
  /** Everything that lies in the facts, as text. */
  dump: (name: string) =>
    inFacts(name, 'readonly', (facts) => {
      const reading = facts.getAll() as IDBRequest<{ bytes: Uint8Array }[]>;
      return () => reading.result.map(({ bytes }) => new TextDecoder().decode(bytes)).join('\n');
    }),

  persistence: async (name: string) => (await must(name)).store.persistence(),
  take: (table: string) => takeTable(table, () => (document.title = 'lost')),
  wait: (table: string) => waitForTable(table, () => (document.title = 'lost')),
  release: (table: string) => releaseTable(table),
  /** Takes the table by force, as a page that means it could. */
  seize: (table: string) =>
    new Promise<void>((resolve) => {
      void navigator.locks.request(`stowcall-table:${table}`, { steal: true }, () => {
        resolve();
        return new Promise(() => undefined);
      });
    }),
};

Object.assign(window, { ledgerPage });
document.title = 'ready';

declare global {
  interface Window {
    ledgerPage: typeof ledgerPage;
    acknowledge: (head: Head) => void;
  }
}
