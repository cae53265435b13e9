/** Standing by: nothing goes on until "resume"; another qualified rigger can take the pack over meanwhile. */
import type { Instant } from '../../../domain/instant';
import type { Person, PackRefusal } from '../../../domain/person';
import { mayPack } from '../../../domain/person';
import type { PlainDate } from '../../../domain/plain-date';
import type { Result } from '../../../domain/result';
import { refused } from '../../../domain/result';
import { holderOf, personScanned } from '../../badge/badge-scan';
import { assemblyById } from '../identify/check-in';
import type { Here, PackContext } from '../../machine/context';
import { daysAt } from '../../machine/here';
import { onEachDay } from '../../state/days';
import type { Decision } from '../../machine/decision';
import { answer, moveTo, refusal, remarkOn, storeAct } from '../../machine/decision';
import { isLongBreak } from './long-break';
import type { Act } from '../../machine/legal';
import { act, phraseOf } from '../../machine/legal';
import type { Scan } from '../../badge/scan-refused';
import { refuseScan } from '../../badge/scan-refused';
import { plain } from '../../words/words';

/** A rigger who may pack at least one model on this day. */
export function mayPackSomething(person: Person, on: PlainDate): Result<void, PackRefusal> {
  const tried = person.models.map((model) => mayPack(person, model, on));
  const may = tried.find((result) => result.ok) ?? tried[0];
  return may ?? refused('not-for-model', `${person.name} is not qualified for any model. Another rigger must pack.`);
}

/** Whether this person may go on with the pack. */
export function mayTakeOver(context: PackContext, person: Person, at: Instant): Result<void> {
  const { loft, state } = context;
  if (person.id === state.packer) {
    return refused('already-packing', `${person.name} packs already. Say ${phraseOf('resume')} to go on.`);
  }
  if (state.verdictGivers.has(person.id)) {
    return refused('has-inspected', `${person.name} has inspected this pack and may not pack it. Call another rigger.`);
  }
  const days = daysAt(context, at);
  if (state.agreed === null) return onEachDay(days, (on) => mayPackSomething(person, on));
  const assembly = assemblyById(loft, state.agreed.assembly);
  if (assembly === null)
    return refused('no-assembly', 'The loft no longer has this assembly. Stop this pack and tag the assembly.');
  return onEachDay(days, (on) => mayPack(person, assembly.model, on));
}

/** A badge while standing by: the packer goes on after a long break, another rigger begins to take over. */
export function standByScan(here: Here, scan: Scan): Decision {
  const { context } = here;
  const { meaning, id: sighting } = scan.sighting;
  if (meaning.kind === 'component') {
    return remarkOn(here, refusal(plain('That is a component label. To take over, scan your badge.')));
  }
  const person = personScanned(context, scan);
  const holder = holderOf(context, scan);
  if (!person.ok) return refuseScan(here, { scan, by: holder }, person);
  const { id } = person.value;
  if (id === context.state.packer && isBadgeWanted(here, scan.at)) {
    const body = { kind: 'resumed', packer: id, sighting } as const;
    return storeAct(here, { at: scan.at, body }, { remark: answer(plain('Resumed.')) });
  }
  const may = mayTakeOver(context, person.value, scan.at);
  if (!may.ok) return refuseScan(here, { scan, by: holder }, may);
  const handOver = { to: id, sighting, at: scan.at, reason: null, leaving: null };
  return moveTo(here, 'handOverReason', { handOver, freshFrom: scan.at });
}

function isBadgeWanted({ context }: Here, at: Instant): boolean {
  return context.badgeWanted || isLongBreak(context.loft, context.state, at);
}

/** Going on. Who resumes is who packs; after a long break only a badge says who that is. */
export function resumeActs(here: Here): readonly Act[] {
  const { state, badgeWanted } = here.context;
  if (badgeWanted) return [];
  return [
    act('resume', { main: here.phase === 'standingBy' }, (_, { at }) =>
      isBadgeWanted(here, at)
        ? moveTo(here, 'standingBy', { badgeWanted: true, handOver: null })
        : storeAct(
            here,
            { at, body: { kind: 'resumed', packer: state.packer ?? '' } },
            { remark: answer(plain('Resumed.')) },
          ),
    ),
  ];
}

/** The break becomes so long that going on wants a badge: said once. */
export function breakGrows(here: Here, at: Instant): Decision | null {
  const { phase, context } = here;
  if (phase !== 'standingBy' || context.badgeWanted || !isBadgeWanted(here, at)) return null;
  return moveTo(here, 'standingBy', { badgeWanted: true, brief: true });
}
