/**
 * The whole verifier: the bytes, the checkpoints, and what was done in each pack. It recomputes everything from the
 * bytes of the file and shares with the writer only SHA-256 and the host's Ed25519.
 */
import type { Fact } from '../../domain/fact';
import { cardLineOf } from './bytes/card-line';
import { checkCheckpoints, type Signer, type Trust } from './bytes/checkpoints';
import { Editions } from './form/editions';
import { isWellFormed } from './form/fact-form';
import type { Finding } from './finding';
import { Journal, type Jump } from './journal/journal';
import { PackCheck } from './pack/pack-check';
import { Restores, type Restore } from './journal/restores';
import { checkStream, LOFT, Tags } from './journal/tags';
import { readExport, type Verdict } from './verify-export';

export interface RecordVerdict extends Verdict {
  /** Packs of which there is a fact. */
  readonly packs: number;
  readonly checkpoints: number;
  /** Where the clock jumped: no finding by itself. */
  readonly jumps: readonly Jump[];
  /** Where the journal was put back from a copy: no finding by itself either. */
  readonly restores: readonly Restore[];
  /** The keys that the file names. Anybody can write a key into a file: whose it is, the file cannot say. */
  readonly keys: readonly string[];
  /** What was in fact signed by which of them. */
  readonly signers: readonly Signer[];
}

/** More findings than anybody reads; a file that is wrong in every line must not fill the memory. */
const MOST_FINDINGS = 100_000;

/** Everything that is wrong with an export, in the order of its lines. Never throws, whatever the bytes are. */
export async function verifyRecord(bytes: Uint8Array, trust: Trust): Promise<RecordVerdict> {
  const packs = new Map<string, PackCheck>();
  const editions = new Editions();
  const cards = new Map<number, string>();
  const journal = new Journal();
  const tags = new Tags();
  const restores = new Restores();
  // Of one pack alone nobody can tell which tags hung before it.
  const doubts: Finding[] = [];
  const found: Finding[] = [];
  const reading = readExport(bytes, (line, value, raw) => {
    const fact = value as Fact;
    const note = (what: Finding['what'], detail: string): void => {
      if (found.length < MOST_FINDINGS) found.push({ line, seq: fact.seq, what, detail });
    };
    if (!isWellFormed(value, raw, note)) return;
    editions.take(fact, note);
    if (fact.body.kind === 'signed')
      cards.set(fact.seq, cardLineOf(fact.seq, fact.body.record, editions.of(fact.pack)));
    const doubt = (what: Finding['what'], detail: string): void => {
      if (doubts.length < MOST_FINDINGS) doubts.push({ line, seq: fact.seq, what, detail });
    };
    try {
      // Since edition 2 the stream of no pack stands in the order of time too, and is judged by the latest day known.
      const isTimed = editions.of(fact.pack) >= 2;
      if (fact.pack === LOFT && !journal.enter(fact) && isTimed) {
        note('time', `Fact ${fact.seq} is dated before the one ahead of it, and no jump of the clock is on record.`);
      }
      const days = isTimed ? journal.daysAt(fact.at) : [fact.at.slice(0, 10)];
      tags.take(fact, { note, doubt, days });
      restores.take(fact, note, days);
      if (fact.pack === LOFT) return checkStream(fact, note);
      const check = packs.get(fact.pack) ?? new PackCheck(journal);
      packs.set(fact.pack, check);
      check.take(fact, note);
    } catch {
      note('unreadable', `Fact ${fact.seq} is not of the form of its kind.`);
    }
  });
  const { verdict, header } = reading;
  restores.end(reading.levels);
  const checkpoints = await checkCheckpoints({ reading, cards }, trust);
  const seen = header?.pack === null ? doubts : [];
  const findings = [...verdict.findings, ...found, ...seen, ...checkpoints.findings];
  findings.sort((a, b) => (a.line ?? 0) - (b.line ?? 0));
  return {
    ...verdict,
    sound: findings.length === 0,
    findings,
    packs: packs.size,
    jumps: journal.jumps,
    restores: restores.all,
    checkpoints: reading.checkpoints.lines.length,
    keys: header?.keys ?? [],
    signers: checkpoints.signers,
  };
}
