/** Who opened a pack, took it over and went on with it: the badge, the standing, and a badge after a long break. */
import type { Note } from '../finding';
import { hexAt, sha256 } from '../bytes/sha256';
import type { FactOf } from './acts';
import { INSPECTOR_ACTS, KIOSK_ACTS, PACKER_ACTS } from './acts';
import type { Account } from './account';
import type { Fact } from '../../../domain/fact';
import { againstHandOver, isLong } from './hand-over';
import type { PackSoFar } from './pack-so-far';
import { checkFresh, checkPacker } from './pack-so-far';
import { againstPacking } from './qualification';

/** Each act names whoever it belongs to. */
export function checkActor({ packer }: Account, { seq, by, body }: Fact, note: Note): void {
  const { kind } = body;
  if (KIOSK_ACTS.includes(kind)) {
    if (by !== null) note('who', `Fact ${seq} is an act of the kiosk, but names ${by}.`);
  } else if (kind === 'packOpened') {
    if (by !== body.packer) note('who', `Fact ${seq} opens the pack for ${body.packer}, but names ${String(by)}.`);
  } else if (kind === 'handedOver') {
    if (by !== body.to) note('who', `Fact ${seq} hands over to ${body.to}, but names ${String(by)}.`);
  } else if (PACKER_ACTS.includes(kind)) {
    if (by !== packer) note('who', `Fact ${seq} names ${String(by)}, who did not pack at that time.`);
  } else if (INSPECTOR_ACTS.includes(kind)) {
    if (!('inspector' in body) || by !== body.inspector) note('who', `Fact ${seq} is not its inspector’s own act.`);
  } else if (kind !== 'scanRefused' && kind !== 'stopped') {
    note('unreadable', `Fact ${seq} is of a kind that is not known here.`);
  }
}

/** The first people file after the opening tells whether the pack could be opened with that badge. */
export function checkOpener({ account, facts }: PackSoFar, { body }: FactOf<'peopleInForce'>, note: Note): void {
  const opened = facts.find((one) => one.body.kind === 'packOpened');
  if (account.people !== null || opened?.body.kind !== 'packOpened') return;
  const { packer } = opened.body;
  const person = body.people.find(({ id }) => id === packer);
  const against = againstPacking(person, null, opened.at.slice(0, 10));
  if (against !== null) note('who', `The pack was opened by ${packer}, who ${against}.`);
  const { badge, badgeDigest } = opened.body;
  const digest = badgeDigest ?? (badge === undefined ? '' : hexAt(sha256(new TextEncoder().encode(badge))));
  if (person?.badges.includes(digest) !== true) {
    note('who', `The pack was opened with a badge that is none of ${packer}’s.`);
  }
}

/** A pack is handed over while it stands by, by its packer, to somebody who has not inspected it. */
export function checkHandOver(pack: PackSoFar, { seq, body }: FactOf<'handedOver'>, note: Note): void {
  const { account, days } = pack;
  if (!account.standingBy) note('order', `Fact ${seq} hands over a pack that did not stand by.`);
  if (body.from !== account.packer) note('who', `Fact ${seq} is handed over by ${body.from}, who did not pack.`);
  if (account.judged.has(body.to)) note('who', `Fact ${seq}: ${body.to} has inspected this pack, and may not pack it.`);
  checkFresh(pack, { seq, sighting: body.sighting }, note);
  if (body.fromSighting !== undefined) checkFresh(pack, { seq, sighting: body.fromSighting }, note);
  for (const why of againstHandOver(account, body, days)) note('who', `Fact ${seq} is a hand-over that ${why}.`);
  checkPacker(pack, { seq, packer: body.to }, note);
}

function wasLong({ account, lastActMs }: PackSoFar, at: string): boolean {
  return isLong(account, Date.parse(at) - lastActMs);
}

/** Whoever goes on is whoever stood by, and shows a badge after a long break. */
export function checkResumed(pack: PackSoFar, { seq, at, body }: FactOf<'resumed'>, note: Note): void {
  const { account } = pack;
  if (!account.standingBy || body.packer !== account.packer)
    note('order', `Fact ${seq} resumes what did not stand by.`);
  if (body.sighting !== undefined) checkFresh(pack, { seq, sighting: body.sighting }, note);
  else if (account.edition >= 2 && wasLong(pack, at))
    note('who', `Fact ${seq} resumes after a long break without the badge of ${body.packer}.`);
}

/** A kiosk that was started again after a long break stands by. */
export function checkRestarted(pack: PackSoFar, { seq, at, body }: FactOf<'restarted'>, note: Note): void {
  const { account } = pack;
  if (account.edition >= 2 && body.standsBy !== true && !account.standingBy && wasLong(pack, at))
    note('who', `Fact ${seq} goes on after a long break without standing by for a badge.`);
}
