/** The verdict at a hold: release, or return with a finding and the stage to go back to. */
import { NOTE_MAX } from '../../../domain/fact';
import { assert } from '../../../domain/assert';
import type { BackTo, HoldTask } from './back-to';
import { backToOf, placesBack } from './back-to';
import { cut } from '../../words/bounded';
import type { ChosenFinding, Here, Presence } from '../../machine/context';
import type { Decision } from '../../machine/decision';
import { answer, moveTo, readBackOf, refusal, remarkOn } from '../../machine/decision';
import { DAMAGE, findingById, findingsOf, findingText, isOwnFinding, OTHER, pointsOf } from './findings';
import type { Act, Said } from '../../machine/legal';
import { act, MAIN } from '../../machine/legal';
import { stopForDamage } from '../stop/stop-work';
import { capital, sentence, words } from '../../words/words';

interface AtHold extends HoldTask {
  readonly presence: Presence;
}

function atHold({ task, context }: Here): AtHold {
  assert(task.kind === 'hold' && context.presence !== null, 'an inspector is present at a hold');
  return { ...task, presence: context.presence };
}

function release(here: Here, { channel }: Said): Decision {
  const { hold, presence } = atHold(here);
  const { inspector, sighting } = presence;
  return readBackOf(here, words`Release: ${hold.title}.`, {
    kind: 'store',
    by: inspector,
    bodies: [{ kind: 'holdReleased', hold: hold.id, inspector, sighting, channel }],
    remark: answer(words`Released: ${hold.title}.`),
  });
}

/** What an inspector can do first. */
export function inspectingActs(here: Here): readonly Act[] {
  return [
    act('releaseHold', MAIN, (_, said) => release(here, said)),
    act('returnHold', MAIN, () => moveTo(here, 'choosingFinding')),
  ];
}

/** Which finding the return is for. "Other" asks on, damage ends the pack. */
export function findingActs(here: Here): readonly Act[] {
  const { hold, stage } = atHold(here);
  const findings = findingsOf(hold, stage);
  const options = findings.map((finding, index) => ({ number: index + 1, label: finding.text }));
  const phrase = words`finding ${findings.length}`.say;
  return [
    act('finding', { ...MAIN, phrase, input: { kind: 'choice', options, note: null } }, ({ number }) => {
      const finding = findings[number - 1];
      if (finding === undefined) return noSuchFinding(here, findings.length);
      if (isOwnFinding(hold, finding)) return moveTo(here, 'choosingStage', { finding: { ...finding, note: null } });
      return finding.id === DAMAGE ? stopForDamage(here) : moveTo(here, 'choosingPoint');
    }),
    act('negative', {}, () => moveTo(here, 'inspecting')),
  ];
}

function noSuchFinding(here: Here, count: number): Decision {
  return remarkOn(here, refusal(words`There are ${count} findings here. Say finding and its number.`));
}

/** Without signs that cannot be printed, and no longer than can be stored; null where nothing was written. */
function noteOf(written: string | undefined): string | null {
  const note = (written ?? '').replace(/[\p{Cc}\p{Surrogate}]+/gu, ' ').trim();
  // A letter can become several as a capital: cut after that.
  return note === '' ? null : cut(capital(note), NOTE_MAX);
}

/** Which inspection point is not met, or something else, with a note by hand. */
export function pointActs(here: Here): readonly Act[] {
  const { hold, stage } = atHold(here);
  const points = pointsOf(hold, stage);
  const other = points.length + 1;
  const options = [
    ...points.map(({ text }, index) => ({ number: index + 1, label: text })),
    { number: other, label: 'Other' },
  ];
  const input = { kind: 'choice', options, note: { number: other, max: NOTE_MAX } } as const;
  return [
    act('finding', { ...MAIN, phrase: words`finding ${other}`.say, input }, ({ number, note }) => {
      const point = points[number - 1];
      if (point !== undefined) return moveTo(here, 'choosingStage', { finding: { ...point, note: null } });
      const finding = findingById(hold, stage, OTHER);
      if (number !== other || finding === null) return noSuchFinding(here, other);
      return moveTo(here, 'choosingStage', { finding: { ...finding, note: noteOf(note) } });
    }),
    act('negative', {}, () => moveTo(here, 'choosingFinding')),
  ];
}

/** A reason is never lost unseen: that nothing was written beside "other" is said too. */
export function chosenText({ id, text, note }: ChosenFinding): string {
  return id === OTHER && note === null ? `${text}, without a written note` : findingText(text, note);
}

/** Why work goes back, and where to. */
interface Return {
  readonly finding: ChosenFinding;
  readonly backTo: BackTo;
}

function returnTo(here: Here, { finding, backTo }: Return, { channel }: Said): Decision {
  const { hold, presence } = atHold(here);
  const { inspector, sighting } = presence;
  const back = backTo.words;
  const what = sentence(chosenText(finding));
  const note = finding.note === null ? {} : { note: finding.note };
  const body = {
    hold: hold.id,
    inspector,
    sighting,
    finding: finding.id,
    ...note,
    backTo: backTo.id,
    channel,
  } as const;
  return readBackOf(here, words`Return: ${what} Back to ${back}.`, {
    kind: 'store',
    by: inspector,
    bodies: [{ kind: 'holdReturned', ...body }],
    remark: answer(words`Returned: ${what} Back to ${back}. Everything from there on is done again, holds included.`),
  });
}

/** Which stage to go back to: the finding's own, or another one not later than the hold's. */
export function backToActs(here: Here): readonly Act[] {
  const task = atHold(here);
  const { hold, stage } = task;
  const { finding } = here.context;
  assert(finding !== null, 'a finding has been chosen');
  const places = placesBack(task);
  const options = places.map(({ number, label }) => ({ number, label }));
  return [
    act('affirm', MAIN, (_, said) => returnTo(here, { finding, backTo: backToOf(task, finding) }, said)),
    act(
      'goToStage',
      { phrase: words`go to stage ${stage.number}`.say, input: { kind: 'choice', options, note: null } },
      ({ stage: wanted }, said) => {
        const chosen = places.find(({ number }) => number === wanted);
        if (chosen !== undefined) return returnTo(here, { finding, backTo: chosen }, said);
        return remarkOn(here, refusal(words`Only a stage from one to ${places.length} can be gone back to.`));
      },
    ),
    act('negative', {}, () => moveTo(here, isOwnFinding(hold, finding) ? 'choosingFinding' : 'choosingPoint')),
  ];
}
