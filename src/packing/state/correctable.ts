/** Which facts "correction" can take back, and which stand for good. */
import type { Fact, FactBody, FactKind } from '../../domain/fact';

const CORRECTABLE = [
  'componentIdentified',
  'toolIssued',
  'counted',
  'stowed',
  'measured',
  'stageConfirmed',
  'itemPlaced',
  'itemRemoved',
  'toolAccounted',
  'itemsAccounted',
  'toolReturned',
  'cardPlaced',
] as const satisfies readonly FactKind[];
export type CorrectableKind = (typeof CORRECTABLE)[number];

/** A fact that can be taken back. */
export interface CorrectableFact extends Fact {
  readonly body: Extract<FactBody, { readonly kind: CorrectableKind }>;
}

/** Nothing that lies before one of these can be taken back. */
const BARRIERS: ReadonlySet<FactKind> = new Set<FactKind>([
  'assemblyAgreed',
  'checkInPassed',
  'checkInFailed',
  'inspected',
  'holdReleased',
  'holdReturned',
  'reopened',
  'signed',
  'stopped',
]);

/** A value outside its band stands: it was affirmed, it stopped the stage, and the log record tells of it. */
function isCorrectable(fact: Fact): fact is CorrectableFact {
  const { body } = fact;
  return CORRECTABLE.some((kind) => kind === body.kind) && (body.kind !== 'measured' || body.within);
}

/** Sequence numbers of the facts that a later `corrected` takes back. One that names anything else takes back nothing. */
export function takenBackBy(facts: readonly Fact[]): ReadonlySet<number> {
  const seen = new Map<number, Fact>();
  const takenBack = new Set<number>();
  for (const fact of facts) {
    if (fact.body.kind === 'corrected') {
      const target = seen.get(fact.body.fact);
      if (target !== undefined && isCorrectable(target)) takenBack.add(target.seq);
    }
    seen.set(fact.seq, fact);
  }
  return takenBack;
}

/** The last fact that may be taken back; null when a verdict, a check or the agreed assembly lies in between. */
export function lastCorrectable(facts: readonly Fact[], takenBack: ReadonlySet<number>): CorrectableFact | null {
  for (const fact of facts.toReversed()) {
    if (BARRIERS.has(fact.body.kind)) return null;
    if (isCorrectable(fact) && !takenBack.has(fact.seq)) return fact;
  }
  return null;
}
