/** A journal in memory behind the ledger port, with switches to fail. Real bytes, real tree, nothing durable. */
import { endsPack, LOFT_STREAM, type Fact, type FactDraft } from '../../src/domain/fact';
import { ok, refused, type Refused, type Result } from '../../src/domain/result';
import { parseFactBytes, sealFact } from '../../src/record/chain/fact-bytes';
import { EMPTY_RANGE, extendRange, rootOfRange, type CompactRange } from '../../src/record/chain/compact-range';
import { makeHashHex } from '../../src/record/chain/hash';
import type { Appended, Head, LedgerFailure, LedgerPort } from '../../src/record/ledger';

/** What survives a restart: give it to another fake to reopen the same journal. */
export interface FakeDisk {
  bytes: Uint8Array[];
  range: CompactRange;
}

export interface FakeLedger extends LedgerPort {
  /** The next call of any method but `close` is refused with this reason; call again for more than one. */
  failNext(reason: LedgerFailure): void;
  /** Appends stay pending until the function that this returns is called. */
  holdAppends(): () => void;
  /** Every fact, in order, as a test wants to see it. */
  facts(): readonly Fact[];
  /** What another `createFakeLedger` opens as the same journal. */
  readonly disk: FakeDisk;
}

/** Makes an empty disk. */
export function createFakeDisk(): FakeDisk {
  return { bytes: [], range: EMPTY_RANGE };
}

/** Makes a ledger on the disk, or on a new one. As with the real one, `open` comes first. */
export function createFakeLedger(disk: FakeDisk = createFakeDisk()): FakeLedger {
  const failures: LedgerFailure[] = [];
  let opened = false;
  let gate: Promise<void> = Promise.resolve();

  const failure = (): Refused<LedgerFailure> | null => {
    const reason = failures.shift();
    return reason === undefined ? null : refused(reason, `The fake was told to fail: ${reason}.`);
  };
  const refusal = (): Refused<LedgerFailure> | null =>
    failure() ?? (opened ? null : refused('unavailable', 'The journal is not open.'));
  const headNow = (): Head => headOf(disk.range);

  return {
    disk,
    failNext: (reason) => void failures.push(reason),
    holdAppends() {
      let release: () => void = () => undefined;
      gate = new Promise((resolve) => (release = resolve));
      return release;
    },
    facts: () => readAll(disk),
    async open() {
      const refusedOpen = failure();
      opened = refusedOpen === null;
      return refusedOpen ?? ok(headNow());
    },
    head: async () => refusal() ?? ok(headNow()),
    async append(expected, drafts) {
      await gate;
      return refusal() ?? appendTo(disk, expected, drafts);
    },
    read: async (pack) => refusal() ?? ok(readAll(disk).filter((fact) => fact.pack === pack)),
    recent: async (count) => refusal() ?? ok(count > 0 ? readAll(disk).slice(-count) : []),
    range: async (seq, count) => refusal() ?? ok(readAll(disk).slice(seq, seq + Math.max(0, count))),
    openPacks: async () => refusal() ?? ok(openPacksOf(readAll(disk))),
    close() {
      opened = false;
    },
  };
}

function appendTo(disk: FakeDisk, expected: Head, drafts: readonly FactDraft[]): Result<Appended, LedgerFailure> {
  const head = headOf(disk.range);
  if (head.size !== expected.size || head.root !== expected.root) {
    return refused('headMoved', 'Another page has written to the journal.');
  }
  const sealed = drafts.map((draft, i) => {
    const one = sealFact(draft, head.size + i);
    if (!one.ok) throw new Error(`Broken assumption: a draft fits the record. ${one.detail}`);
    return one.value;
  });
  disk.bytes.push(...sealed.map(({ bytes }) => bytes));
  disk.range = sealed.reduce((range, { leaf }) => extendRange(range, leaf), disk.range);
  return ok({ facts: sealed.map(({ fact }) => fact), head: headOf(disk.range) });
}

function readAll(disk: FakeDisk): readonly Fact[] {
  return disk.bytes.map((bytes) => {
    const fact = parseFactBytes(bytes);
    if (!fact.ok) throw new Error(fact.detail);
    return fact.value;
  });
}

function openPacksOf(facts: readonly Fact[]): readonly string[] {
  const ended = new Set(facts.filter(({ body }) => endsPack(body)).map(({ pack }) => pack));
  return [...new Set(facts.map(({ pack }) => pack))].filter((pack) => pack !== LOFT_STREAM && !ended.has(pack));
}

function headOf(range: CompactRange): Head {
  return { size: range.size, root: makeHashHex(rootOfRange(range)) };
}
