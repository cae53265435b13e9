/** The loft's files were read anew while the pack is open: everything but the procedure counts from now on. */
import type { Instant } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import { personById } from '../../domain/loft';
import { mayInspect } from '../../domain/person';
import { assemblyById } from '../steps/identify/check-in';
import type { Here, PackContext } from './context';
import { daysAt, hereOf } from './here';
import { onEachDay, whatFailed } from '../state/days';
import type { Decision } from './decision';
import { answer, draft, store, warning } from './decision';
import { foldFacts } from '../state/fold';
import { isCheckedIn, recheckBody, recheckLines } from './recheck';
import { plain } from '../words/words';

export interface Files {
  readonly loft: Loft;
  readonly at: Instant;
}

/** Why whoever is present may not give a verdict any more; null where nobody is, or they may. */
function againstPresent({ context, task }: Here, at: Instant): string | null {
  const { presence, loft, state } = context;
  if (presence === null || task.kind !== 'hold') return null;
  const person = personById(loft, presence.inspector);
  const assembly = assemblyById(loft, state.agreed?.assembly ?? '');
  if (person === null || assembly === null) return 'The loft no longer knows this inspector or this assembly.';
  const of = { model: assembly.model, holdClass: task.hold.inspectorClass, packers: state.packers };
  const may = onEachDay(daysAt(context, at), (on) => mayInspect(person, { ...of, on }));
  return may.ok ? null : may.detail;
}

/**
 * Takes the files in. A pack that they stop, or let go on again, says so at once in a fact of its own; an inspector who
 * may not inspect any more counts as gone, whatever is being read back.
 */
export function takeFiles(before: Here, { loft, at }: Files): Decision {
  const { facts } = before.context;
  const state = facts.length === 0 ? before.context.state : foldFacts(loft, facts);
  const context: PackContext = { ...before.context, loft, state };
  const here = hereOf(before.phase, context);
  const taken = { loft, state };
  const against = againstPresent(here, at);
  const { presence } = context;
  const lapsed =
    against === null || presence === null
      ? []
      : [
          draft(context, {
            by: null,
            at,
            body: { kind: 'verdictLapsed', hold: presence.hold, inspector: presence.inspector },
          }),
        ];
  const checks = isCheckedIn(state) ? recheckLines(loft, state, daysAt(context, at)) : null;
  const same = checks === null || whatFailed(checks) === (state.checked?.failed ?? whatFailed([]));
  const again = same ? [] : [draft(context, { by: null, at, body: recheckBody('filesChanged', checks) })];
  if (lapsed.length + again.length === 0) return { to: before.phase, patch: taken };
  const gone = lapsed.length > 0;
  const remark = gone
    ? warning(plain(`${against ?? ''} No verdict was given.`))
    : again[0]?.body.kind === 'recheckPassed'
      ? answer(plain('The files were put right. The pack goes on.'))
      : null;
  const stored = store(here, [...lapsed, ...again], { remark, presence: gone ? null : presence });
  return { to: stored.to, patch: { ...taken, ...stored.patch } };
}
