/** Recomputes checks that were made again: the check-in, the packer, and each inspector whose release stands. */
import type { Account } from './account';
import { againstCheckIn } from './check-in';
import type { FindingKind } from '../finding';
import { againstInspecting, againstPacking, type Inspecting } from './qualification';

/** What is said against something on any of the days that count, each once. */
export function onEachDay(
  days: readonly string[],
  against: (on: string) => readonly string[] | string | null,
): readonly string[] {
  return [...new Set(days.flatMap((on) => against(on) ?? []))];
}

/** Against this person as the inspector of a hold, on any of the days. */
export function againstInspector(
  account: Account,
  id: string,
  of: Omit<Inspecting, 'on' | 'packers'> & { readonly days: readonly string[] },
): readonly string[] {
  const { packers } = account;
  return onEachDay(of.days, (on) => againstInspecting(account.people?.get(id), { ...of, packers, on }));
}

/** Everything that should have failed, with what kind of wrong it is. */
export function againstAgain(
  account: Account,
  days: readonly string[],
): readonly { readonly what: FindingKind; readonly detail: string }[] {
  const { agreed, work, packer, people } = account;
  const model = work?.assembly.model ?? '';
  const found = onEachDay(days, (on) => againstCheckIn(account, on)).map((detail) => ({
    what: 'check-in' as FindingKind,
    detail,
  }));
  if (work !== null && work.assembly.procedure !== agreed?.procedure) {
    found.push({ what: 'check-in', detail: 'The books named another procedure for the assembly by then.' });
  }
  const packing = onEachDay(days, (on) => againstPacking(people?.get(packer ?? ''), model, on));
  for (const why of packing) found.push({ what: 'who', detail: `${String(packer)} ${why}, and may not pack this.` });
  for (const { hold } of account.procedure?.stages ?? []) {
    const release = hold === null ? undefined : account.released.get(hold.id);
    if (hold === null || release === undefined) continue;
    const { inspector } = release;
    for (const why of againstInspector(account, inspector, { model, holdClass: hold.inspectorClass, days })) {
      found.push({ what: 'who', detail: `${inspector} ${why}, and the release of ${hold.id} no longer counted.` });
    }
  }
  return found;
}
