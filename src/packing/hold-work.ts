/** The verdict at a hold: release, or return with a finding and the stage to go back to. */
import type { Finding, Hold, Procedure, Stage } from '../domain/procedure';
import { stageOf } from '../domain/procedure';
import { assert } from '../domain/assert';
import type { Here, Presence } from './context';
import type { Decision } from './decision';
import { answer, moveTo, readBackOf, refusal, remarkOn } from './decision';
import type { Act, Said } from './legal';
import { act, MAIN } from './legal';
import { words } from './words';

interface AtHold {
  readonly procedure: Procedure;
  readonly stage: Stage;
  readonly hold: Hold;
  readonly presence: Presence;
}

function atHold({ task, context }: Here): AtHold {
  assert(task.kind === 'hold' && context.presence !== null, 'an inspector is present at a hold');
  return { ...task, presence: context.presence };
}

/** The findings of a hold. A hold without any can still be returned. */
export function findingsOf(hold: Hold, stage: Stage): readonly Finding[] {
  if (hold.findings.length > 0) return hold.findings;
  return [{ id: 'other', text: 'Not as the procedure says', backTo: stage.id }];
}

/** The stage that a return for this finding goes back to unless the inspector says otherwise; never a later one. */
export function backToOf(procedure: Procedure, holdStage: Stage, finding: Finding): Stage {
  const stage = stageOf(procedure, finding.backTo);
  return stage === null || stage.number > holdStage.number ? holdStage : stage;
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

/** Which finding the return is for. */
export function findingActs(here: Here): readonly Act[] {
  const { hold, stage } = atHold(here);
  const findings = findingsOf(hold, stage);
  const options = findings.map((finding, index) => ({ number: index + 1, label: finding.text }));
  const phrase = words`finding ${findings.length}`.say;
  return [
    act('finding', { ...MAIN, phrase, input: { kind: 'choice', options } }, ({ number }) => {
      const finding = findings[number - 1];
      if (finding !== undefined) return moveTo(here, 'choosingStage', { finding });
      return remarkOn(here, refusal(words`There are ${findings.length} findings here. Say finding and its number.`));
    }),
    act('negative', {}, () => moveTo(here, 'inspecting')),
  ];
}

function returnTo(here: Here, finding: Finding, backTo: Stage, { channel }: Said): Decision {
  const { hold, presence } = atHold(here);
  const { inspector, sighting } = presence;
  const back = words`stage ${backTo.number}, ${backTo.title}`;
  return readBackOf(here, words`Return: ${finding.text}. Back to ${back}.`, {
    kind: 'store',
    by: inspector,
    bodies: [
      { kind: 'holdReturned', hold: hold.id, inspector, sighting, finding: finding.id, backTo: backTo.id, channel },
    ],
    remark: answer(
      words`Returned: ${finding.text}. Back to ${back}. Everything from there on is done again, holds included.`,
    ),
  });
}

/** Which stage to go back to: the finding's own, or another one not later than the hold's. */
export function backToActs(here: Here): readonly Act[] {
  const { procedure, stage } = atHold(here);
  const { finding } = here.context;
  assert(finding !== null, 'a finding has been chosen');
  const options = procedure.stages
    .filter((one) => one.number <= stage.number)
    .map((one) => ({ number: one.number, label: one.title }));
  return [
    act('affirm', MAIN, (_, said) => returnTo(here, finding, backToOf(procedure, stage, finding), said)),
    act(
      'goToStage',
      { phrase: words`go to stage ${stage.number}`.say, input: { kind: 'choice', options } },
      ({ stage: wanted }, said) => {
        const chosen = procedure.stages.find((one) => one.number === wanted && one.number <= stage.number);
        if (chosen !== undefined) return returnTo(here, finding, chosen, said);
        return remarkOn(here, refusal(words`Only a stage from one to ${stage.number} can be gone back to.`));
      },
    ),
    act('negative', {}, () => moveTo(here, 'choosingFinding')),
  ];
}
