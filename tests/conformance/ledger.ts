/**
 * What every ledger must do, fake or real. Plain functions without a test runner, so that the same cases run in Node
 * and inside a page of a real browser.
 */
import type { FactBody } from '../../src/domain/fact';
import { makeFactBytes } from '../../src/record/chain/fact-bytes';
import { EMPTY_RANGE, extendRange, rootOfRange } from '../../src/record/chain/compact-range';
import { leafHash, makeHashHex } from '../../src/record/chain/hash';
import type { Head, LedgerPort } from '../../src/record/ledger';
import { countDraft, draftOf, SAMPLE_BODIES } from '../fakes/ledger-facts';
import { reason, rejects, same, value } from './plain-assertions';

/** One journal, empty at first, that any number of ledgers can be made on, as pages of one browser are. */
export interface LedgerSubject {
  /** Another ledger on the same journal; not opened yet. */
  page(): LedgerPort;
}

export interface LedgerCase {
  readonly name: string;
  run(subject: LedgerSubject): Promise<void>;
}

/** RFC 6962: the root of a journal without facts is SHA-256 of nothing. */
const EMPTY: Head = { size: 0, root: 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855' };

export const LEDGER_CASES: readonly LedgerCase[] = [
  {
    name: 'opens empty at the root of nothing',
    async run(subject) {
      const ledger = subject.page();
      same(value(await ledger.open()), EMPTY);
      same(value(await ledger.head()), EMPTY);
      same(value(await ledger.openPacks()), []);
      same(value(await ledger.read('pack-1')), []);
    },
  },
  {
    name: 'numbers facts from 0 over all packs and gives them back as they are read later',
    async run(subject) {
      const ledger = subject.page();
      let head = value(await ledger.open());
      const given = [];
      for (const [i, pack] of ['a', 'b', 'a', 'b', 'a'].entries()) {
        const appended = value(await ledger.append(head, [countDraft(pack, i)]));
        same(appended.facts, [{ seq: i, ...countDraft(pack, i) }]);
        head = appended.head;
        given.push(...appended.facts);
      }
      for (const pack of ['a', 'b']) {
        same(
          value(await ledger.read(pack)),
          given.filter((fact) => fact.pack === pack),
        );
      }
      same(value(await ledger.head()), head);
    },
  },
  {
    name: 'gives the last facts of all packs in order, and no more than there are',
    async run(subject) {
      const ledger = subject.page();
      let head = value(await ledger.open());
      same(value(await ledger.recent(3)), []);
      const given = [];
      for (const [i, pack] of ['a', 'b', 'a', 'b', 'a'].entries()) {
        const appended = value(await ledger.append(head, [countDraft(pack, i)]));
        head = appended.head;
        given.push(...appended.facts);
      }
      same(value(await ledger.recent(0)), []);
      same(value(await ledger.recent(3)), given.slice(2));
      same(value(await ledger.recent(5)), given);
      same(value(await ledger.recent(500)), given);
      same(value(await ledger.range(1, 2)), given.slice(1, 3));
      same(value(await ledger.range(3, 500)), given.slice(3));
      same(value(await ledger.range(5, 1)), []);
      same(value(await ledger.range(0, 0)), []);
    },
  },
  {
    name: 'keeps the head at the RFC 6962 root over the stored bytes, one by one and in batches',
    async run(subject) {
      const ledger = subject.page();
      let head = value(await ledger.open());
      let range = EMPTY_RANGE;
      for (const batch of [1, 2, 3, 1, 8, 5]) {
        const drafts = Array.from({ length: batch }, (_, i) => countDraft('pack-1', i));
        const appended = value(await ledger.append(head, drafts));
        for (const fact of appended.facts) {
          const bytes = makeFactBytes(fact);
          if (!bytes.ok) throw new Error(bytes.detail);
          range = extendRange(range, leafHash(bytes.value));
        }
        head = appended.head;
        same(head, { size: range.size, root: makeHashHex(rootOfRange(range)) });
      }
    },
  },
  {
    name: 'keeps every kind of fact as it was',
    async run(subject) {
      const ledger = subject.page();
      const head = value(await ledger.open());
      const drafts = Object.values<FactBody>(SAMPLE_BODIES).map((body) => draftOf('pack-1', body));
      value(await ledger.append(head, drafts));
      same(
        value(await ledger.read('pack-1')),
        drafts.map((draft, seq) => ({ seq, ...draft })),
      );
    },
  },
  {
    name: 'turns away an append to a head that has moved on, and stores nothing of it',
    async run(subject) {
      const ledger = subject.page();
      const old = value(await ledger.open());
      const { head } = value(await ledger.append(old, [countDraft('pack-1', 1)]));
      reason(await ledger.append(old, [countDraft('pack-1', 2)]), 'headMoved');
      reason(await ledger.append({ ...head, root: old.root }, [countDraft('pack-1', 2)]), 'headMoved');
      reason(await ledger.append({ ...head, size: 2 }, [countDraft('pack-1', 2)]), 'headMoved');
      same(value(await ledger.head()), head);
      same(value(await ledger.read('pack-1')).length, 1);
    },
  },
  {
    name: 'lets exactly one of several appends to the same head through',
    async run(subject) {
      const ledger = subject.page();
      const head = value(await ledger.open());
      const all = await Promise.all([1, 2, 3, 4, 5].map((n) => ledger.append(head, [countDraft('pack-1', n)])));
      const through = all.filter((result) => result.ok);
      same(through.length, 1);
      all.filter((result) => !result.ok).forEach((result) => reason(result, 'headMoved'));
      same(value(await ledger.read('pack-1')), value(through[0]!).facts);
    },
  },
  {
    name: 'turns a second page away until it looks again',
    async run(subject) {
      const [first, second] = [subject.page(), subject.page()];
      const head = value(await first.open());
      same(value(await second.open()), head);
      value(await first.append(head, [countDraft('pack-1', 1)]));
      reason(await second.append(head, [countDraft('pack-2', 2)]), 'headMoved');
      const seen = value(await second.head());
      same(seen.size, 1);
      value(await second.append(seen, [countDraft('pack-2', 2)]));
      same(
        value(await first.read('pack-2')).map(({ seq }) => seq),
        [1],
      );
    },
  },
  {
    name: 'stores all drafts of an append or none: one that no reader could read stops the others',
    async run(subject) {
      const ledger = subject.page();
      const head = value(await ledger.open());
      const unreadable: FactBody = { ...SAMPLE_BODIES.measured, deviation: Number.NaN };
      const drafts = [countDraft('pack-1', 1), draftOf('pack-1', unreadable), countDraft('pack-1', 2)];
      await rejects(ledger.append(head, drafts));
      same(value(await ledger.head()), EMPTY);
      same(value(await ledger.read('pack-1')), []);
      same(value(await ledger.openPacks()), []);
      same(value(await ledger.append(head, [countDraft('pack-1', 3)])).head.size, 1);
    },
  },
  {
    name: 'an append of nothing moves nothing but still compares',
    async run(subject) {
      const ledger = subject.page();
      const head = value(await ledger.open());
      same(value(await ledger.append(head, [])), { facts: [], head });
      value(await ledger.append(head, [countDraft('pack-1', 1)]));
      reason(await ledger.append(head, []), 'headMoved');
    },
  },
  {
    name: 'names the open packs, oldest first, until they are signed or stopped',
    async run(subject) {
      const ledger = subject.page();
      let head = value(await ledger.open());
      const add = async (pack: string, body: FactBody): Promise<void> => {
        head = value(await ledger.append(head, [draftOf(pack, body)])).head;
      };
      for (const pack of ['zulu', 'alfa', 'mike']) await add(pack, SAMPLE_BODIES.packOpened);
      await add('zulu', SAMPLE_BODIES.stoodBy);
      same(value(await ledger.openPacks()), ['zulu', 'alfa', 'mike']);
      await add('alfa', SAMPLE_BODIES.signed);
      same(value(await ledger.openPacks()), ['zulu', 'mike']);
      await add('zulu', SAMPLE_BODIES.stopped);
      same(value(await ledger.openPacks()), ['mike']);
      // What is refused after the end does not open the pack again.
      await add('zulu', SAMPLE_BODIES.scanRefused);
      same(value(await ledger.openPacks()), ['mike']);
    },
  },
  {
    name: 'a pack opened and ended in one append is not open',
    async run(subject) {
      const ledger = subject.page();
      const head = value(await ledger.open());
      const bodies = [SAMPLE_BODIES.packOpened, SAMPLE_BODIES.stopped, SAMPLE_BODIES.stoodBy];
      value(
        await ledger.append(
          head,
          bodies.map((body) => draftOf('pack-1', body)),
        ),
      );
      same(value(await ledger.openPacks()), []);
    },
  },
  {
    name: 'is the same journal after it was closed and opened again',
    async run(subject) {
      const before = subject.page();
      const { head, facts } = value(await before.append(value(await before.open()), [countDraft('pack-1', 1)]));
      before.close();
      const after = subject.page();
      same(value(await after.open()), head);
      same(value(await after.read('pack-1')), facts);
      same(value(await after.openPacks()), ['pack-1']);
      same(value(await after.append(head, [countDraft('pack-1', 2)])).facts[0]?.seq, 1);
    },
  },
  {
    name: 'refuses everything before it is opened and after it is closed',
    async run(subject) {
      const ledger = subject.page();
      const refuses = async (): Promise<void> => {
        reason(await ledger.head(), 'unavailable');
        reason(await ledger.append(EMPTY, [countDraft('pack-1', 1)]), 'unavailable');
        reason(await ledger.read('pack-1'), 'unavailable');
        reason(await ledger.openPacks(), 'unavailable');
      };
      await refuses();
      same(value(await ledger.open()), EMPTY);
      ledger.close();
      await refuses();
      same(value(await ledger.open()), EMPTY);
    },
  },
  {
    name: 'can be opened twice',
    async run(subject) {
      const ledger = subject.page();
      const [a, b] = await Promise.all([ledger.open(), ledger.open()]);
      same(value(a), EMPTY);
      same(value(b), EMPTY);
      const { head } = value(await ledger.append(EMPTY, [countDraft('pack-1', 1)]));
      same(value(await ledger.open()), head);
    },
  },
];

/** Runs every case, each on a subject of its own, and tells what went wrong; for pages without a test runner. */
export async function runLedgerCases(
  makeSubject: (name: string) => LedgerSubject,
): Promise<readonly { readonly name: string; readonly fault: string | null }[]> {
  const results = [];
  for (const [i, { name, run }] of LEDGER_CASES.entries()) {
    const fault = await run(makeSubject(`case-${i}`)).then(
      () => null,
      (error: unknown) => String(error),
    );
    results.push({ name, fault });
  }
  return results;
}
