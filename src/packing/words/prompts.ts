/** What is said at each step: all of it on arrival, and only what is new while the step goes on. */
import type { ComponentKind } from '../../domain/component';
import { COMPONENT_KINDS } from '../../domain/component';
import { personById } from '../../domain/loft';
import type { Hold } from '../../domain/procedure';
import { holdsOf } from '../../domain/procedure';
import { sayDate } from '../../domain/plain-date';
import { isToldBefore } from './blind';
import type { Here } from '../machine/context';
import { backToOf } from '../steps/hold/back-to';
import { cardPrompt } from '../steps/close-up/card-work';
import { findingsOf, pointsOf } from '../steps/hold/findings';
import { chosenText } from '../steps/hold/hold-work';
import { inspectionPoints } from '../../domain/inspection';
import { partWords } from '../steps/inspect/look-over';
import { handOverOf, lastReleased, REASONS } from '../steps/stand-by/hand-over';
import { missingKinds } from '../steps/identify/identify';
import { phraseOf } from '../machine/legal';
import { sealMarkOf } from '../steps/sign/log-record-of';
import { personName, placeWords } from '../state/place';
import { pendingReadBack } from '../steps/read-back/read-back';
import { restorePrompt, stagePrompt } from '../steps/stage/stage-prompt';
import type { Choice } from '../steps/stop/stop-work';
import { CAUSES, TAGGABLE, taggedWords } from '../steps/stop/stop-work';
import { itemsPrompt } from '../steps/tools/tray';
import type { PromptPart } from './prompt-parts';
import { numbered, part } from './prompt-parts';
import { capital, listOf, plain, sentence, serialWords, words } from './words';

/** What is said where we are, part by part. */
export function promptParts(here: Here): readonly PromptPart[] {
  const { task, phase } = here;
  if (phase === 'standingBy') return standingBy(here);
  if (phase === 'handOverReason' || phase === 'handOverLeaving' || phase === 'handOverLook') return handingOver(here);
  if (phase === 'readingBack') return [part('what', pendingReadBack(here).words)];
  if (phase === 'choosingCause' || phase === 'choosingComponent') return stopping(here);
  switch (task.kind) {
    case 'identify':
      return identify(here);
    case 'blocked':
      return blocked(here);
    case 'inspect':
      return inspect(here, task);
    case 'toolOut':
    case 'toolCheck':
    case 'toolBack':
      return tools(here);
    case 'items':
      return itemsPrompt(here, task);
    case 'restore':
      return restorePrompt(here, task);
    case 'stage':
      return stagePrompt(here, task);
    case 'hold':
      return hold(here);
    case 'sign':
      return sign(here);
    case 'card':
      return cardPrompt(here, task);
    case 'recorded':
      return [
        part(
          'what',
          `This pack is closed. The log record is complete. Last day of use: ${sayDate(task.record.nextDue)}.`,
        ),
        part('todo', 'Print the log book page.'),
      ];
    case 'stopped':
      return stopped(task.stopped.component);
  }
}

const APART = 'Keep it apart from what is fit for use.';

function stopped(component: ComponentKind | undefined): readonly PromptPart[] {
  return [
    part('what', 'This pack is stopped.'),
    part('todo', `Tag ${taggedWords(component)} as not fit for use.`),
    part('caution', APART),
  ];
}

function stopping({ phase, context, task }: Here): readonly PromptPart[] {
  if (phase === 'choosingCause') {
    const checks =
      task.kind === 'blocked' ? [part('say', `Say ${phraseOf('affirm')} for failed checks, or choose.`)] : [];
    return [part('todo', 'Stop and tag: for which cause?'), ...checks, numbered('choices', labelsOf(CAUSES))];
  }
  const ends = context.stopping?.isVerdict === true ? [part('what', 'Damage ends this inspection and the pack.')] : [];
  return [...ends, part('todo', 'What is to be tagged?'), numbered('choices', labelsOf(TAGGABLE))];
}

function labelsOf(all: readonly Choice[]): readonly string[] {
  return all.map(({ label }) => label);
}

function identify({ context }: Here): readonly PromptPart[] {
  const missing = missingKinds(context.state);
  if (missing.length === 0)
    return [
      part('what', 'The three do not belong together.'),
      part('say', `Say ${phraseOf('correction')} to take back the last.`),
    ];
  const name = personName(context, context.state.packer);
  if (context.brief || missing.length < COMPONENT_KINDS.length) {
    return [part('todo', `Scan the ${listOf(missing, 'or')}.`)];
  }
  return [part('what', `${name}, begin.`), part('todo', `Scan the ${listOf(missing)}, in any order.`)];
}

function blocked({ task, context }: Here): readonly PromptPart[] {
  const what =
    context.state.checkIn?.passed === true ? 'This pack must not go on.' : 'This assembly must not be packed.';
  const again = task.kind === 'blocked' && task.again === true;
  const ask = again
    ? [
        part('todo', 'Once the files are put right it goes on.'),
        part(
          'say',
          `Say ${phraseOf('standBy')} for somebody to take over, or ${phraseOf('stopAndTag')} to end this pack.`,
        ),
      ]
    : [
        part(
          'say',
          `Say ${phraseOf('stopAndTag')} to end this pack${context.state.stages.size > 0 ? ', or say reopen stage and the number of a stage' : ''}.`,
        ),
      ];
  if (task.kind !== 'blocked' || context.brief) return [part('what', what), ...ask];
  const failed = task.checks.filter((line) => !line.passed);
  return [
    part('what', `Stop. ${what}`),
    ...failed.map((line) => part('lines', `${line.label}: ${sentence(line.detail)}`)),
    part('caution', 'Keep the assembly apart from what is fit for use.'),
    ...ask,
  ];
}

/** The points are on the screen, and read where somebody asks for them. */
function inspect({ context }: Here, task: Extract<Here['task'], { kind: 'inspect' }>): readonly PromptPart[] {
  const points = inspectionPoints(task.procedure, task.component);
  const ask = part(
    'say',
    words`Say ${phraseOf('nothingFound')} if all ${points.length} points are met, or finding and its number.`,
  );
  if (context.reading) return [part('lines', 'To be met:'), numbered('lines', points), ask];
  if (context.brief) return [ask];
  const begin =
    task.number > 1 ? [] : [part('todo', 'Before anything is packed, look over each part: dry, aired and clean.')];
  return [...begin, part('what', words`Part ${task.number} of ${task.of}. ${partWords(task)}.`), ask];
}

const COUNT_TOOLS = {
  toolOut: 'Count the tools out, line by line.',
  toolCheck: 'Before the container is closed, count the tools, line by line. None may be inside.',
  toolBack: 'All stages are done. Count the tools once more, line by line.',
} as const;

function tools(here: Here): readonly PromptPart[] {
  const { task, context } = here;
  if (task.kind !== 'toolOut' && task.kind !== 'toolCheck' && task.kind !== 'toolBack') return [];
  const { tool, index, kind } = task;
  const out = kind === 'toolOut';
  const owed = out ? tool.count : (context.state.toolsOut.get(tool.id) ?? tool.count);
  const name = capital(tool.name);
  const told = isToldBefore(here) ? words` ${owed} ${plain(out ? 'planned' : 'out')}.` : plain('');
  const ask = part('todo', words`${name}:${told} ${plain(out ? 'how many?' : 'how many are outside the pack?')}`);
  if (context.brief || index > 0) return [ask];
  return [part('todo', COUNT_TOOLS[kind]), ask, part('say', 'Count them, then say the number and the word tools.')];
}

function hold(here: Here): readonly PromptPart[] {
  const { task, phase, context } = here;
  if (task.kind !== 'hold') return [];
  const holds = holdsOf(task.procedure);
  const number = holds.findIndex((one) => one.hold.id === task.hold.id) + 1;
  switch (phase) {
    case 'inspecting': {
      const ask = part(
        'say',
        words`Say ${phraseOf('releaseHold')} or ${phraseOf('returnHold')} within ${context.loft.settings.verdictSeconds} seconds of the scan.`,
      );
      return context.reading ? [...pointsRead(task.hold), ask] : [ask];
    }
    case 'choosingFinding':
      return [
        part('todo', 'Back for rework. Which finding?'),
        numbered(
          'choices',
          findingsOf(task.hold, task.stage).map(({ text }) => text),
        ),
      ];
    case 'choosingPoint':
      return [
        part('todo', 'What is not so? A note can be written by hand.'),
        numbered('choices', [...pointsOf(task.hold, task.stage).map(({ text }) => text), 'Other']),
      ];
    case 'choosingStage': {
      if (context.finding === null) return [];
      const back = backToOf(task, context.finding);
      return [
        part('todo', words`${sentence(chosenText(context.finding))} Back to ${back.words}.`),
        part('say', `Say ${phraseOf('affirm')} for that stage, or go to stage and another number.`),
      ];
    }
    default: {
      if (here.context.reading) return [...pointsRead(task.hold), part('todo', LOOK_FIRST)];
      if (context.brief) return [part('todo', LOOK_FIRST)];
      const what = task.final
        ? words`Final inspection: ${sentence(task.hold.title)}`
        : words`Inspection hold ${number} of ${holds.length}: ${sentence(task.hold.title)}`;
      return [
        part('what', what),
        part('todo', 'Inspector.'),
        part('say', `Say ${phraseOf('readList')} to hear the points.`),
      ];
    }
  }
}

const LOOK_FIRST = 'Waiting for the inspector: look first, then scan your badge.';

function pointsRead({ inspect }: Hold): readonly PromptPart[] {
  return [part('lines', 'To be inspected:'), ...inspect.map((one) => part('lines', sentence(one)))];
}

function sign({ context }: Here): readonly PromptPart[] {
  const { packer } = context.state;
  const name = packer === null ? 'Rigger' : (personById(context.loft, packer)?.name ?? 'Rigger');
  const mark = context.loft.settings.seals === true ? sealMarkOf(context.loft, context.state) : null;
  return [
    ...(context.brief ? [] : [part('what', 'Tools, temporary items, holds and values agree.')]),
    ...(mark === null
      ? []
      : [part('todo', words`Seal the pack with your mark, ${serialWords(mark)}, before you sign.`)]),
    part('todo', `${name}, scan your badge to sign.`),
  ];
}

function handingOver(here: Here): readonly PromptPart[] {
  const { phase, context } = here;
  const to = personName(context, handOverOf(here).to);
  if (phase === 'handOverReason') {
    return [part('todo', `Hand-over to ${to}: for which reason?`), numbered('choices', labelsOf(REASONS))];
  }
  if (phase === 'handOverLeaving') {
    const from = personName(context, context.state.packer);
    return [
      part('todo', `${from}, scan your badge to let the pack go. Where ${from} cannot, a lead scans a badge instead.`),
    ];
  }
  const look = lastReleased(here);
  if (look === null) return [];
  const { hold: looked, stage } = look;
  return [
    part(
      'todo',
      words`${to}, look back: hold ${looked.title} after stage ${stage.number} stands as it was released. Is that right?`,
    ),
  ];
}

function standingBy({ task, context }: Here): readonly PromptPart[] {
  const resume = context.badgeWanted
    ? part('todo', `${personName(context, context.state.packer)}, it was a long break. Scan your badge to go on.`)
    : part('say', `Say ${phraseOf('resume')} to go on.`);
  const ask = [resume, part('todo', 'To take over, another rigger scans a badge.')];
  return context.brief ? ask : [part('what', words`Standing by at ${placeWords(task)}.`), ...ask];
}
