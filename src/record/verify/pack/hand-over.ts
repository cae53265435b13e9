/** Who may take a pack over or go on with it: both badges, a reason, a look back, and a badge after a long break. */
import type { Account, BodyOf } from './account';
import { onEachDay } from './recheck';
import { againstLead } from './qualification';

/** Minutes of a break after which a badge is wanted, where no fact says how many. */
const LONG_BREAK_MINUTES = 15;

/** Whether this break wants a badge; one that ends before it began was made by a clock that was set back. */
export function isLong({ work }: Account, breakMs: number): boolean {
  return !(breakMs >= 0 && breakMs <= (work?.resumeBadgeMinutes ?? LONG_BREAK_MINUTES) * 60_000);
}

/** What speaks against this hand-over since edition 2, apart from who takes over. */
export function againstHandOver(
  account: Account,
  body: BodyOf<'handedOver'>,
  days: readonly string[],
): readonly string[] {
  if (account.edition < 2) return [];
  const wrong: string[] = [];
  const { fromSighting, reason, lead, lookedBack } = body;
  if (fromSighting === undefined) wrong.push('was made without the badge of whoever left, or of a lead');
  if (fromSighting === body.sighting) wrong.push('rests on one scan for both badges');
  if (reason === undefined) wrong.push('has no reason');
  if (body.to === account.packer) wrong.push('hands the pack to whoever had it');
  if (lead !== undefined) {
    if (lead === body.to) wrong.push(`was let go by ${lead}, who took over`);
    wrong.push(...onEachDay(days, (on) => againstLead(account.people?.get(lead), on)).map((why) => `${lead} ${why}`));
  }
  const released = account.procedure?.stages.flatMap(({ hold }) => hold ?? []) ?? [];
  const last = released.findLast(({ id }) => account.released.has(id))?.id ?? null;
  if (lookedBack !== last)
    wrong.push(`looked back at ${String(lookedBack ?? 'nothing')}, not at ${String(last ?? 'nothing')}`);
  return wrong;
}
