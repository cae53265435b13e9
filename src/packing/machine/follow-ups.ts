/** What the kiosk itself owes behind an act, so that one write holds all of it or nothing. */
import type { PackId } from '../../domain/ids';
import type { Fact, FactBody, FactDraft } from '../../domain/fact';
import type { Instant } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import { procedureById } from '../../domain/loft';
import type { PlainDate } from '../../domain/plain-date';
import { bounded } from '../words/bounded';
import { agreedAssembly, checkInLines } from '../steps/identify/check-in';
import { judgedDays, laterDay, linesOnEachDay } from '../state/days';
import type { PackState } from '../state/pack-state';
import { foldFacts } from '../state/fold';
import { isReleased, procedureOf } from '../state/pack-state';
import { recheckAfter } from './recheck';

/** Written as the revision where the loft has no usable procedure for the assembly. */
const NO_REVISION = 'none';

/** Once three components agree: the agreement, and the check-in. */
function checkIn(loft: Loft, state: PackState, days: readonly PlainDate[]): readonly FactBody[] {
  if (state.ended !== null || state.checkIn !== null) return [];
  const assembly = agreedAssembly(loft, state.identified);
  if (assembly === null) return [];
  const procedure = procedureById(loft, assembly.procedure);
  const digest = procedure?.digest;
  const checks = linesOnEachDay(days, (on) => checkInLines({ loft, state, assembly }, on));
  const kind = checks.every((one) => one.passed) ? 'checkInPassed' : 'checkInFailed';
  const agreed: FactBody = {
    kind: 'assemblyAgreed',
    assembly: assembly.id,
    procedure: assembly.procedure,
    revision: procedure?.revision ?? NO_REVISION,
    ...(digest === undefined ? {} : { digest }),
  };
  return [...(state.agreed === null ? [agreed] : []), { kind, checks }];
}

/** The end of the pack, once the final hold is released for the signature that stands. */
function packClosed(loft: Loft, state: PackState): readonly FactBody[] {
  const hold = procedureOf(loft, state)?.finalHold?.id;
  const isOver = state.ended !== null || state.signed === null || !state.cardPlaced;
  if (hold === undefined || isOver || state.signed === null || !isReleased(state, hold)) return [];
  const inspector = state.releases.get(hold)?.inspector ?? '';
  return [{ kind: 'packClosed', signed: state.signed.seq, hold, inspector }];
}

interface Journal {
  readonly loft: Loft;
  readonly pack: PackId;
  readonly facts: readonly Fact[];
  /** The latest day in other packs; null for none. */
  readonly journalDay: PlainDate | null;
}

/** The state after these drafts, as if they were stored already. For looking ahead only. */
function foldAhead({ loft, facts }: Journal, drafts: readonly FactDraft[]): PackState {
  const next = (facts.at(-1)?.seq ?? -1) + 1;
  return foldFacts(loft, [...facts, ...drafts.map((draft, index) => ({ ...draft, seq: next + index }))]);
}

/** Adds what follows of itself. */
export function withFollowUps(journal: Journal, drafts: readonly FactDraft[], at: Instant): readonly FactDraft[] {
  const { loft, pack, journalDay } = journal;
  const ahead = foldAhead(journal, drafts);
  const days = judgedDays(laterDay(ahead.latestDay, journalDay), at);
  const again = recheckAfter({ loft, state: ahead }, drafts, days);
  const bodies = [...checkIn(loft, ahead, days), ...packClosed(loft, ahead), ...(again === null ? [] : [again])];
  return [...drafts, ...bodies.map((body) => ({ pack, at, by: null, body: bounded(body) }))];
}
