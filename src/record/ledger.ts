/** Port: the journal's storage. Append-only; nothing is ever changed or removed. */
import type { Fact, FactDraft } from '../domain/fact';
import type { Result } from '../domain/result';

/** Where the journal stands: number of facts, and the RFC 6962 tree hash over their stored bytes, in hex. */
export interface Head {
  readonly size: number;
  readonly root: string;
}

export type LedgerFailure = 'headMoved' | 'full' | 'denied' | 'corrupt' | 'newer' | 'unavailable';

export interface Appended {
  readonly facts: readonly Fact[];
  readonly head: Head;
}

export interface LedgerPort {
  open(): Promise<Result<Head, LedgerFailure>>;
  head(): Promise<Result<Head, LedgerFailure>>;
  /**
   * All drafts or none, durably (`durability: 'strict'`, resolved after the transaction is done), and only if the
   * journal still stands at `expected` (compare and swap): another tab's write turns this one away.
   * The facts come back as they will be read later. A draft that no reader could read (a text beyond its bound, a
   * number that is none) is a defect of the caller: the promise rejects, and nothing is stored.
   */
  append(expected: Head, drafts: readonly FactDraft[]): Promise<Result<Appended, LedgerFailure>>;
  /** The facts of one pack, in order; none for a pack that is not known. `corrupt` names the fact that is damaged. */
  read(pack: string): Promise<Result<readonly Fact[], LedgerFailure>>;
  /** The last `count` facts of all packs, in order; fewer where the journal has fewer. */
  recent(count: number): Promise<Result<readonly Fact[], LedgerFailure>>;
  /** Up to `count` facts from number `seq` on, in order, of all packs; none beyond the end. */
  range(seq: number, count: number): Promise<Result<readonly Fact[], LedgerFailure>>;
  /** Packs without a fact that ends them (`endsPack`), oldest first. */
  openPacks(): Promise<Result<readonly string[], LedgerFailure>>;
  close(): void;
}
