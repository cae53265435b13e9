/** The component book of this kiosk's journal: folded once at the start, and after that from what was added since. */
import { BookFold, withBook, type ComponentBook } from '../../domain/component/component-book';
import type { Loft } from '../../domain/loft';
import { ok, type Result } from '../../domain/result';
import type { Head, LedgerFailure, LedgerPort } from '../../record/ledger';

/** Facts that are read at once: the memory of a journal of many years must not be needed in one piece. */
const BATCH = 500;

export interface JournalBook {
  /** What the whole journal up to now says. A journal that cannot be read to its end says nothing. */
  read(): Promise<Result<ComponentBook, LedgerFailure>>;
  /** The loft with what was last read put over its files. */
  over(loft: Loft): Loft;
}

export function createJournalBook(ledger: Pick<LedgerPort, 'head' | 'range'>): JournalBook {
  let fold = new BookFold();
  let next = 0;
  let reading: Promise<Result<ComponentBook, LedgerFailure>> | null = null;

  const readOn = async (head: Head): Promise<Result<ComponentBook, LedgerFailure>> => {
    // Another journal stands here now, for example a restored one.
    if (head.size < next) {
      fold = new BookFold();
      next = 0;
    }
    while (next < head.size) {
      const facts = await ledger.range(next, Math.min(BATCH, head.size - next));
      if (!facts.ok) return facts;
      if (facts.value.length === 0) break;
      for (const fact of facts.value) fold.take(fact);
      next += facts.value.length;
    }
    return ok(fold.book());
  };

  return {
    over: (loft) => withBook(loft, fold.book()),
    read: () => {
      reading ??= ledger
        .head()
        .then((head) => (head.ok ? readOn(head.value) : head))
        .finally(() => {
          reading = null;
        });
      return reading;
    },
  };
}
