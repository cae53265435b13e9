/** Takes up a pack: what the journal says of it, of its parts and of the other packs, the machine, and the pad for PINs. */
import { withBook } from '../../domain/component/component-book';
import type { Fact } from '../../domain/fact';
import type { Loft } from '../../domain/loft';
import { ok, refused, type Result } from '../../domain/result';
import type { Head } from '../../record/ledger';
import { openPackInput } from './open-pack-input';
import { sayLedgerFailure, startPack, type PackRunner } from './pack-runner';
import type { KioskParts } from '../parts';
import { createPinGate, type PinGate } from '../pin/pin-gate';
import type { Moment } from '../record/circumstances';
import type { JournalBook } from '../tags/journal-book';

export interface EnterParts {
  readonly parts: KioskParts;
  readonly book: JournalBook;
  readonly loft: Loft;
  readonly head: Head;
  /** When the clock was last looked at, in an earlier pack of this page. */
  readonly known: Moment | null;
  readonly onChange: () => void;
  readonly onSigned: (signed: Fact) => void;
  readonly onClosed: () => void;
}

export interface Entered {
  readonly runner: PackRunner;
  readonly pin: PinGate;
  /** The facts that the pack had already. */
  readonly facts: readonly Fact[];
}

/** By whose badge a pack is begun. */
export interface PackOpening {
  readonly packer: string;
  readonly badgeDigest: string;
}

/** Without the whole journal nobody knows which tags hang on its parts, so any failure opens no pack. */
export async function enterPack(
  { parts, book, known: moment, loft, head, ...told }: EnterParts,
  pack: string,
  opening: PackOpening | null,
): Promise<Result<Entered, 'no-journal'>> {
  const { ledger, now, nowMs, offsetAt } = parts;
  const known = await book.read();
  const read = known.ok ? await openPackInput(ledger, pack, opening) : known;
  if (!known.ok || !read.ok) {
    return refused('no-journal', `The pack cannot be opened.${read.ok ? '' : ` ${sayLedgerFailure(read.reason)}`}`);
  }
  const input = { loft: withBook(loft, known.value), pack, opening, at: now(), ...read.value };
  const runner = startPack({ ledger, head, input, now, nowMs, offsetAt, known: moment, ...told });
  const pin = createPinGate({
    pinFits: parts.pinFits ?? (() => Promise.resolve(false)),
    handOn: (sighting) => runner.send({ type: 'SIGHTED', sighting, at: now() }),
    onChange: told.onChange,
    waitMs: loft.settings.verdictSeconds * 1_000,
  });
  return ok({ runner, pin, facts: read.value.facts });
}
