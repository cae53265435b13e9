/** Turning a scan away: said, and kept as a fact. */
import type { PersonId } from '../../domain/ids';
import type { Instant } from '../../domain/instant';
import type { Refused } from '../../domain/result';
import type { Sighting } from '../../domain/sighting';
import type { Here, Phase } from '../machine/context';
import type { AfterStored, Decision } from '../machine/decision';
import { draft, refusal, store } from '../machine/decision';
import { plain } from '../words/words';

const HANDING_OVER: readonly Phase[] = ['standingBy', 'handOverReason', 'handOverLeaving', 'handOverLook'];

/** What the journal says about the place of a refused scan. */
function whereOf({ phase, task, context }: Here): string {
  if (HANDING_OVER.includes(phase)) return 'handover';
  if (task.kind === 'hold') return `hold:${task.hold.id}`;
  if (task.kind === 'identify') return 'identify';
  return task.kind === 'sign' ? 'sign' : `${task.kind}:${context.pack}`;
}

export interface Scan {
  readonly sighting: Sighting;
  readonly at: Instant;
}

/** A scan that is turned away, and whose badge it was; null where nobody's. */
interface TurnedAway {
  readonly scan: Scan;
  readonly by: PersonId | null;
}

/** Stores a `scanRefused` fact; the sentence is said once that is done. Whoever is present stays present. */
export function refuseScan(here: Here, { scan, by }: TurnedAway, why: Refused): Decision {
  const { context } = here;
  const body = {
    kind: 'scanRefused',
    reason: why.reason,
    detail: why.detail,
    payloadDigest: scan.sighting.payloadDigest,
    where: whereOf(here),
  } as const;
  const after: AfterStored = { remark: refusal(plain(why.detail)), presence: context.presence };
  return store(here, [draft(context, { by, at: scan.at, body })], after);
}
