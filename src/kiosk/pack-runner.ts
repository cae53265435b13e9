/** Runs one pack: the machine's one effect, storing facts, meets the ledger here. */
import { createActor, type SnapshotFrom } from 'xstate';
import type { Instant } from '../domain/instant';
import type { PackEvent, PackInput } from '../packing/event';
import { packMachine } from '../packing/machine';
import type { PackView } from '../packing/view';
import { viewOf } from '../packing/view-of';
import type { Head, LedgerFailure, LedgerPort } from '../record/ledger';

export interface PackRunner {
  send(event: PackEvent): void;
  view(): PackView;
  /** Where the journal stands for this page. */
  head(): Head;
  /** Closes the machine; nothing stored is touched. */
  end(): void;
}

export interface PackRunnerParts {
  readonly ledger: LedgerPort;
  /** Where the journal stood when `input.facts` were read. */
  readonly head: Head;
  readonly input: PackInput;
  readonly now: () => Instant;
  readonly onChange: () => void;
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

const TICK_MS = 1_000;

/** Starts the machine on its facts. Screen and voice learn of a fact only after it is stored (invariant 1). */
export function startPack(parts: PackRunnerParts): PackRunner {
  const { ledger } = parts;
  // Never refreshed after a failure: if another page wrote, this machine's facts are old and must not be added to.
  let head: Head = parts.head;

  const store = async (drafts: Parameters<LedgerPort['append']>[1]): Promise<void> => {
    const stored = await ledger.append(head, drafts);
    if (stored.ok) {
      head = stored.value.head;
      actor.send({ type: 'STORED', facts: stored.value.facts });
    } else {
      actor.send({ type: 'STORE_FAILED', detail: sayLedgerFailure(stored.reason) });
    }
  };

  const machine = packMachine.provide({
    actions: {
      append: (_, { drafts }) => {
        store(drafts).catch((error: unknown) => {
          actor.send({ type: 'STORE_FAILED', detail: `${WHY.unavailable} (${String(error)})` });
        });
      },
    },
  });
  const actor = createActor(machine, { input: parts.input });

  let cached: { readonly snapshot: SnapshotFrom<typeof packMachine>; readonly view: PackView } | null = null;
  const view = (): PackView => {
    const snapshot = actor.getSnapshot();
    if (cached?.snapshot !== snapshot) cached = { snapshot, view: viewOf(snapshot) };
    return cached.view;
  };

  actor.subscribe(parts.onChange);
  actor.start();
  const ticking = setInterval(() => actor.send({ type: 'TICK', at: parts.now() }), TICK_MS);
  return {
    send: (event) => actor.send(event),
    view,
    head: () => head,
    end: () => {
      clearInterval(ticking);
      actor.stop();
    },
  };
}
