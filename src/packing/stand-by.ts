/** Standing by: nothing goes on until "resume"; another qualified rigger can take the pack over meanwhile. */
import type { Instant } from '../domain/instant';
import type { Person, PackRefusal } from '../domain/person';
import { mayPack, personOfBadge } from '../domain/person';
import type { PlainDate } from '../domain/plain-date';
import type { Result } from '../domain/result';
import { refused } from '../domain/result';
import { personScanned } from './badge-scan';
import { assemblyById } from './check-in';
import type { Here, PackContext } from './context';
import { daysAt } from './context';
import { onEachDay } from './days';
import type { Decision } from './decision';
import { answer, draft, refusal, remarkOn, store, storeAct } from './decision';
import type { Act } from './legal';
import { act, MAIN, phraseOf } from './legal';
import type { Scan } from './scan-refused';
import { refuseScan } from './scan-refused';
import { plain, words } from './words';

/** A rigger who may pack at least one model on this day. */
export function mayPackSomething(person: Person, on: PlainDate): Result<void, PackRefusal> {
  const tried = person.models.map((model) => mayPack(person, model, on));
  const may = tried.find((result) => result.ok) ?? tried[0];
  return may ?? refused('not-for-model', `${person.name} is not qualified for any model. Another rigger must pack.`);
}

function mayTakeOver(context: PackContext, person: Person, at: Instant): Result<void> {
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

/** A badge while standing by: hands the pack over, or is refused. */
export function handOverScan(here: Here, scan: Scan): Decision {
  const { context } = here;
  const { meaning } = scan.sighting;
  if (meaning.kind === 'component') {
    return remarkOn(here, refusal(plain('That is a component label. To take over, scan your badge.')));
  }
  const person = personScanned(context, scan);
  const holder =
    meaning.kind === 'badge' ? (personOfBadge(context.loft.people, meaning.badgeDigest)?.id ?? null) : null;
  if (!person.ok) return refuseScan(here, scan, person, holder);
  const may = mayTakeOver(context, person.value, scan.at);
  if (!may.ok) return refuseScan(here, scan, may, holder);
  const { id, name } = person.value;
  const body = { kind: 'handedOver', from: context.state.packer ?? '', to: id, sighting: scan.sighting.id } as const;
  return store(here, [draft(context, id, scan.at, body)], { remark: answer(words`Handed over to ${name}.`) });
}

/** Going on. Who resumes is who packs. */
export function resumeActs(here: Here): readonly Act[] {
  const packer = here.context.state.packer ?? '';
  return [
    act('resume', MAIN, (_, { at }) =>
      storeAct(here, at, { kind: 'resumed', packer }, { remark: answer(plain('Resumed.')) }),
    ),
  ];
}
