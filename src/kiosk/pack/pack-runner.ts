/** Runs one pack: the machine's one effect, storing facts, meets the ledger here. */
import { createActor, type SnapshotFrom } from 'xstate';
import type { Instant } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import type { Person } from '../../domain/person';
import type { Result } from '../../domain/result';
import type { PackEvent, PackInput, Sighted } from '../../packing/machine/event';
import { packMachine } from '../../packing/machine/machine';
import { pinAskedOf } from '../../packing/badge/pin-asked';
import type { PackView } from '../../packing/machine/view';
import { voicesExpected, type VoiceExpected } from '../../packing/machine/voices-expected';
import { viewOf } from '../../packing/machine/view-of';
import type { Fact, FactDraft } from '../../domain/fact';
import type { Appended, Head, LedgerFailure, LedgerPort } from '../../record/ledger';
import { Circumstances, type Gathered, type Moment } from '../record/circumstances';
import { withDigests } from '../record/in-force';

export interface PackRunner {
  send(event: PackEvent): void;
  /** The loft's files as they were read just now. */
  files(loft: Loft): void;
  view(): PackView;
  /** Whose PIN the pack would want for this badge; null for none. */
  pinAskedOf(event: Sighted): Person | null;
  /** Whose voices are expected now. */
  voices(): readonly VoiceExpected[];
  /** Where the journal stands for this page. */
  head(): Head;
  /** The last moment at which anything was stored; null for none in this page. */
  known(): Moment | null;
  /** Until the first fact is stored or refused, or the pack ended without one. */
  begun(): Promise<void>;
  /** Closes the machine; nothing stored is touched. */
  end(): void;
}

export interface PackRunnerParts {
  readonly ledger: LedgerPort;
  /** Where the journal stood when `input.facts` were read. */
  readonly head: Head;
  readonly input: PackInput;
  readonly now: () => Instant;
  /** Milliseconds of a clock that is never set. */
  readonly nowMs: () => number;
  /** The last moment at which this page stored anything, in whichever pack. */
  readonly known?: Moment | null;
  /** The offset that the zone of this computer has at a moment. */
  readonly offsetAt?: ((at: Instant) => string) | undefined;
  readonly onChange: () => void;
  /** The pack was signed: the fact that says so. */
  readonly onSigned?: (signed: Fact) => void;
  /** The pack has ended soundly; its last facts belong into the next copy. */
  readonly onClosed?: () => void;
}

const WHY: Readonly<Record<LedgerFailure, string>> = {
  headMoved: 'Another page has written to the journal. Close the other page, then start this one again.',
  full: 'The storage is full. Free some room on this computer.',
  denied: 'The browser does not allow storage. Allow it for this page.',
  corrupt: 'The journal is damaged. Nothing is added to it until it has been looked at.',
  newer: 'The journal was written by a newer version of the kiosk. Reload this page.',
  unavailable: 'The storage does not answer. Start the kiosk again.',
};

/** Plain words for a storage failure: what is wrong and what to do. */
export function sayLedgerFailure(failure: LedgerFailure): string {
  return WHY[failure];
}

/** The journal rejects, rather than refuses, only what no reader could read back. */
const UNFIT =
  'This cannot be recorded as it is. The pack can still be stopped and tagged, and the records can be exported.';

/** The fact with the highest number; undefined for none. */
function lastOf(facts: readonly Fact[]): Fact | undefined {
  return facts.toSorted((one, other) => one.seq - other.seq).at(-1);
}

function circumstancesOf({ known = null, offsetAt }: PackRunnerParts, input: PackInput): Circumstances {
  const lastAt = lastOf([...input.facts, ...(input.elsewhere ?? [])])?.at ?? null;
  return new Circumstances(input.loft, input.facts, { lastAt, known, offsetAt });
}

/** Stopping must always be possible: should something beside the stop be what cannot be stored, it goes in alone. */
async function appendAll(
  ledger: LedgerPort,
  head: Head,
  { asked, drafts, own }: Gathered & { readonly asked: readonly FactDraft[] },
): Promise<{ readonly own: readonly boolean[]; readonly stored: Result<Appended, LedgerFailure> }> {
  try {
    return { own, stored: await ledger.append(head, drafts) };
  } catch (error) {
    if (!asked.some(({ body }) => body.kind === 'stopped')) throw error;
    return { own: asked.map(() => true), stored: await ledger.append(head, asked) };
  }
}

const TICK_MS = 1_000;

/** Of a signature the card is proved; the end of the pack belongs into the next copy. */
function tellEnds({ onSigned, onClosed }: PackRunnerParts, facts: readonly Fact[]): void {
  const signed = facts.find(({ body }) => body.kind === 'signed');
  if (signed !== undefined) onSigned?.(signed);
  if (facts.some(({ body }) => body.kind === 'packClosed')) onClosed?.();
}

/** Starts the machine on its facts. Screen and voice learn of a fact only after it is stored (invariant 1). */
export function startPack(parts: PackRunnerParts): PackRunner {
  const { ledger } = parts;
  const input = { ...parts.input, loft: withDigests(parts.input.loft) };
  const circumstances = circumstancesOf(parts, input);
  let known = parts.known ?? null;
  // Never refreshed after a failure: if another page wrote, this machine's facts are old and must not be added to.
  let head: Head = parts.head;
  let hasBegun: () => void = () => undefined;
  const begun = new Promise<void>((resolve) => (hasBegun = resolve));

  const store = async (asked: readonly FactDraft[]): Promise<void> => {
    const moment = { at: parts.now(), ms: parts.nowMs() };
    const { own, stored } = await appendAll(ledger, head, { asked, ...circumstances.gather(asked, moment) });
    if (stored.ok) {
      head = stored.value.head;
      circumstances.took(stored.value.facts, moment);
      known = moment;
      actor.send({
        type: 'STORED',
        facts: stored.value.facts.filter((_, index) => own[index] === true),
        beside: stored.value.facts.filter((_, index) => own[index] !== true),
      });
      tellEnds(parts, stored.value.facts);
    } else {
      actor.send({ type: 'STORE_FAILED', detail: sayLedgerFailure(stored.reason) });
    }
  };

  const machine = packMachine.provide({
    actions: {
      append: (_, { drafts }) => {
        const stored = store(drafts).catch((error: unknown) => {
          actor.send({ type: 'STORE_FAILED', detail: `${UNFIT} (${String(error)})` });
        });
        void stored.then(() => {
          hasBegun();
          handOnFiles();
        });
      },
    },
  });
  const actor = createActor(machine, { input });

  let cached: { readonly snapshot: SnapshotFrom<typeof packMachine>; readonly view: PackView } | null = null;
  const view = (): PackView => {
    const snapshot = actor.getSnapshot();
    if (cached?.snapshot !== snapshot) cached = { snapshot, view: viewOf(snapshot) };
    return cached.view;
  };

  let held: Loft = parts.input.loft;
  let next: Loft | null = null;
  /** While drafts are under way they were judged by the files that were there; new ones wait. */
  const handOnFiles = (): void => {
    if (next === null || actor.getSnapshot().context.pending !== null) return;
    const loft = withDigests(next);
    next = null;
    circumstances.changed(loft);
    actor.send({ type: 'FILES', loft, at: parts.now() });
  };

  actor.subscribe(parts.onChange);
  actor.start();
  const ticking = setInterval(() => actor.send({ type: 'TICK', at: parts.now() }), TICK_MS);
  return {
    send: (event) => actor.send(event),
    files: (loft) => {
      if (loft === held) return;
      held = loft;
      next = loft;
      handOnFiles();
    },
    view,
    pinAskedOf: (event) => pinAskedOf(actor.getSnapshot(), event),
    voices: () => voicesExpected(actor.getSnapshot()),
    head: () => head,
    known: () => known,
    begun: () => begun,
    end: () => {
      hasBegun();
      clearInterval(ticking);
      actor.stop();
    },
  };
}
