/**
 * What held at check-in must still hold: dates, life, outstanding work, the packer's standing and that of each inspector
 * whose release stands are checked again when a pack is taken up, handed over or signed, and when the files change.
 */
import type { Assembly } from '../../domain/component/component';
import type { CheckLine, FactBody, FactDraft, RecheckOccasion } from '../../domain/fact';
import type { Loft } from '../../domain/loft';
import { personById, procedureById } from '../../domain/loft';
import { mayInspect } from '../../domain/person';
import type { PlainDate } from '../../domain/plain-date';
import type { Procedure } from '../../domain/procedure';
import { holdsOf } from '../../domain/procedure';
import type { Result } from '../../domain/result';
import { refused } from '../../domain/result';
import { assemblyById, assemblyLines } from '../steps/identify/check-in';
import { linesOnEachDay, whatFailed } from '../state/days';
import type { Agreed, PackState } from '../state/pack-state';
import { hasChanged, isReleased, procedureOf } from '../state/pack-state';

export type RecheckBody = Extract<FactBody, { kind: 'recheckPassed' | 'recheckFailed' }>;

/** After these the checks are made again, in the same write. */
const OCCASIONS: Partial<Record<FactBody['kind'], RecheckOccasion>> = {
  resumed: 'resumed',
  restarted: 'restarted',
  handedOver: 'handedOver',
  reopened: 'reopened',
};

const fails = (label: string, detail: string): CheckLine => ({ label, passed: false, detail });

/** One revision with two contents: nobody could tell later which of them this pack followed. */
export function fileChanged({ procedure, revision }: Agreed): CheckLine {
  return fails(
    'Procedure',
    `The file of procedure ${procedure} was changed and still says revision ${revision}. ` +
      'Bring the file back as it was, or stop this pack and tag the assembly. A changed procedure needs a new revision.',
  );
}

/** For a pack whose own facts hold no procedure. */
export function revisionGone({ procedure, revision }: Agreed): CheckLine {
  return fails(
    'Procedure',
    `This pack follows procedure ${procedure}, revision ${revision}, which the loft no longer has. ` +
      'Bring that revision back, or stop this pack and tag the assembly.',
  );
}

function procedureLine(loft: Loft, agreed: Agreed, assembly: Assembly): CheckLine {
  const filed = procedureById(loft, agreed.procedure);
  if (filed !== null && hasChanged(filed, agreed)) return fileChanged(agreed);
  if (assembly.procedure !== agreed.procedure) {
    return fails(
      'Procedure',
      `The books name procedure ${assembly.procedure} for ${assembly.name} now, and this pack follows ` +
        `${agreed.procedure}. Have the books put right, or stop this pack and tag the assembly.`,
    );
  }
  return { label: 'Procedure', passed: true, detail: `Revision ${agreed.revision}, as it was agreed.` };
}

interface Rechecking {
  readonly loft: Loft;
  readonly state: PackState;
  readonly assembly: Assembly;
  readonly procedure: Procedure;
}

/** Each inspector whose release stands must still be one who may give it. */
function inspectorLines({ loft, state, assembly, procedure }: Rechecking, on: PlainDate): readonly CheckLine[] {
  return holdsOf(procedure).flatMap(({ hold, stage }) => {
    const release = isReleased(state, hold.id) ? state.releases.get(hold.id) : undefined;
    if (release === undefined) return [];
    const label = `Inspector of ${hold.title}`;
    const person = personById(loft, release.inspector);
    const { packers } = state;
    const may: Result<void> =
      person === null
        ? refused('unknown', `The loft no longer knows ${release.inspector}.`)
        : mayInspect(person, { model: assembly.model, holdClass: hold.inspectorClass, packers, on });
    if (may.ok) return [{ label, passed: true, detail: `${person?.name ?? release.inspector} is qualified.` }];
    const again = `The release no longer counts. Reopen stage ${String(stage.number)}, or stop this pack and tag the assembly.`;
    return [fails(label, `${may.detail} ${again}`)];
  });
}

/** Every line as it stands now; one that fails stops the pack. */
export function recheckLines(loft: Loft, state: PackState, days: readonly PlainDate[]): readonly CheckLine[] {
  const { agreed } = state;
  const procedure = procedureOf(loft, state);
  const assembly = agreed === null ? null : assemblyById(loft, agreed.assembly);
  if (agreed === null || assembly === null) {
    return [
      fails(
        'Assembly',
        'The loft no longer has this assembly. Bring its file back, or stop this pack and tag the assembly.',
      ),
    ];
  }
  const own = procedureLine(loft, agreed, assembly);
  if (procedure === null) return [own.passed ? revisionGone(agreed) : own];
  const rechecking = { loft, state, assembly, procedure };
  return [own, ...linesOnEachDay(days, (on) => [...assemblyLines(rechecking, on), ...inspectorLines(rechecking, on)])];
}

/** The fact that says how it stands. */
export function recheckBody(occasion: RecheckOccasion, checks: readonly CheckLine[]): RecheckBody {
  const kind = checks.every((line) => line.passed) ? 'recheckPassed' : 'recheckFailed';
  return { kind, occasion, checks };
}

/** Whether there is anything to check again: a pack that was checked in and goes on. */
export function isCheckedIn({ checkIn, ended }: PackState): boolean {
  return checkIn?.passed === true && ended === null;
}

/**
 * What the kiosk owes behind these drafts: null where nothing happened that wants it, or where on the same day it would
 * say the same again. `state` is how it stands after them.
 */
export function recheckAfter(
  { loft, state }: { readonly loft: Loft; readonly state: PackState },
  drafts: readonly FactDraft[],
  days: readonly PlainDate[],
): RecheckBody | null {
  const occasion = drafts.map(({ body }) => OCCASIONS[body.kind]).findLast((one) => one !== undefined);
  if (occasion === undefined || !isCheckedIn(state)) return null;
  const checks = recheckLines(loft, state, days);
  const { checked } = state;
  const same = checked !== null && checked.on === days.at(-1) && checked.failed === whatFailed(checks);
  return same && occasion !== 'handedOver' ? null : recheckBody(occasion, checks);
}
