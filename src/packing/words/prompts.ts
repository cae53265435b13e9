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
import type { Words } from './words';
import { capital, joinWords, listOf, plain, sentence, serialWords, words } from './words';

/** The words for where we are. */
export function promptWords(here: Here): Words {
  const { task, phase } = here;
  if (phase === 'standingBy') return standingBy(here);
  if (phase === 'handOverReason' || phase === 'handOverLeaving' || phase === 'handOverLook') return handingOver(here);
  if (phase === 'readingBack') return pendingReadBack(here).words;
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
      return plain(
        `This pack is closed. The log record is complete. Last day of use: ${sayDate(task.record.nextDue)}. Print the log book page.`,
      );
    case 'stopped':
      return stopped(task.stopped.component);
  }
}

const APART = 'Keep it apart from what is fit for use.';

function stopped(component: ComponentKind | undefined): Words {
  return plain(`This pack is stopped. Tag ${taggedWords(component)} as not fit for use. ${APART}`);
}

function choices(asked: Words, all: readonly string[]): Words {
  return joinWords([asked, ...all.map((one, index) => words`Number ${index + 1}: ${sentence(one)}`)]);
}

function stopping({ phase, context, task }: Here): Words {
  if (phase === 'choosingCause') {
    const checks = task.kind === 'blocked' ? `Say ${phraseOf('affirm')} for failed checks, or choose.` : '';
    return choices(joinWords([plain('Stop and tag: for which cause?'), plain(checks)]), labelsOf(CAUSES));
  }
  const ends = context.stopping?.isVerdict === true ? 'Damage ends this inspection and the pack.' : '';
  return choices(joinWords([plain(ends), plain('What is to be tagged?')]), labelsOf(TAGGABLE));
}

function labelsOf(all: readonly Choice[]): readonly string[] {
  return all.map(({ label }) => label);
}

function identify({ context }: Here): Words {
  const missing = missingKinds(context.state);
  if (missing.length === 0)
    return plain(`The three do not belong together. Say ${phraseOf('correction')} to take back the last.`);
  const name = personName(context, context.state.packer);
  if (context.brief || missing.length < COMPONENT_KINDS.length) return plain(`Scan the ${listOf(missing, 'or')}.`);
  return joinWords([plain(`${name}, begin.`), plain(`Scan the ${listOf(missing)}, in any order.`)]);
}

function blocked({ task, context }: Here): Words {
  const what =
    context.state.checkIn?.passed === true ? 'This pack must not go on.' : 'This assembly must not be packed.';
  const again = task.kind === 'blocked' && task.again === true;
  const ways = again
    ? `Once the files are put right it goes on. Say ${phraseOf('standBy')} for somebody to take over, or ` +
      `${phraseOf('stopAndTag')} to end this pack.`
    : `Say ${phraseOf('stopAndTag')} to end this pack${context.state.stages.size > 0 ? ', or say reopen stage and the number of a stage' : ''}.`;
  const ask = plain(ways);
  if (task.kind !== 'blocked' || context.brief) return joinWords([plain(what), ask]);
  const failed = task.checks.filter((line) => !line.passed);
  return joinWords([
    plain(`Stop. ${what}`),
    ...failed.map((line) => plain(`${line.label}: ${sentence(line.detail)}`)),
    plain('Keep the assembly apart from what is fit for use.'),
    ask,
  ]);
}

/** The points are on the screen, and read where somebody asks for them. */
function inspect({ context }: Here, task: Extract<Here['task'], { kind: 'inspect' }>): Words {
  const points = inspectionPoints(task.procedure, task.component);
  const ask = words`Say ${phraseOf('nothingFound')} if all ${points.length} points are met, or finding and its number.`;
  if (context.reading) return joinWords([choices(plain('To be met:'), points), ask]);
  if (context.brief) return ask;
  const begin =
    task.number > 1 ? plain('') : plain('Before anything is packed, look over each part: dry, aired and clean.');
  return joinWords([begin, words`Part ${task.number} of ${task.of}. ${partWords(task)}.`, ask]);
}

const COUNT_TOOLS = {
  toolOut: 'Count the tools out, line by line.',
  toolCheck: 'Before the container is closed, count the tools, line by line. None may be inside.',
  toolBack: 'All stages are done. Count the tools once more, line by line.',
} as const;

function tools(here: Here): Words {
  const { task, context } = here;
  if (task.kind !== 'toolOut' && task.kind !== 'toolCheck' && task.kind !== 'toolBack') return plain('');
  const { tool, index, kind } = task;
  const out = kind === 'toolOut';
  const owed = out ? tool.count : (context.state.toolsOut.get(tool.id) ?? tool.count);
  const name = capital(tool.name);
  const told = isToldBefore(here) ? words` ${owed} ${plain(out ? 'planned' : 'out')}.` : plain('');
  const ask = words`${name}:${told} ${plain(out ? 'how many?' : 'how many are outside the pack?')}`;
  if (context.brief || index > 0) return ask;
  return joinWords([plain(COUNT_TOOLS[kind]), ask, plain('Count them, then say the number and the word tools.')]);
}

function hold(here: Here): Words {
  const { task, phase, context } = here;
  if (task.kind !== 'hold') return plain('');
  const holds = holdsOf(task.procedure);
  const number = holds.findIndex((one) => one.hold.id === task.hold.id) + 1;
  switch (phase) {
    case 'inspecting': {
      const ask = words`Say ${phraseOf('releaseHold')} or ${phraseOf('returnHold')} within ${context.loft.settings.verdictSeconds} seconds of the scan.`;
      return context.reading ? joinWords([pointsRead(task.hold), ask]) : ask;
    }
    case 'choosingFinding':
      return choices(
        plain('Back for rework. Which finding?'),
        findingsOf(task.hold, task.stage).map(({ text }) => text),
      );
    case 'choosingPoint':
      return choices(plain('What is not so? A note can be written by hand.'), [
        ...pointsOf(task.hold, task.stage).map(({ text }) => text),
        'Other',
      ]);
    case 'choosingStage': {
      if (context.finding === null) return plain('');
      const back = backToOf(task, context.finding);
      return words`${sentence(chosenText(context.finding))} Back to ${back.words}. Say ${phraseOf('affirm')} for that stage, or go to stage and another number.`;
    }
    default:
      if (here.context.reading) return joinWords([pointsRead(task.hold), plain(LOOK_FIRST)]);
      if (context.brief) return plain(LOOK_FIRST);
      if (task.final) {
        return words`Final inspection: ${sentence(task.hold.title)} Inspector. Say ${phraseOf('readList')} to hear the points.`;
      }
      return words`Inspection hold ${number} of ${holds.length}: ${sentence(task.hold.title)} Inspector. Say ${phraseOf('readList')} to hear the points.`;
  }
}

const LOOK_FIRST = 'Waiting for the inspector: look first, then scan your badge.';

function pointsRead({ inspect }: Hold): Words {
  return joinWords([plain('To be inspected:'), ...inspect.map((one) => plain(sentence(one)))]);
}

function sign({ context }: Here): Words {
  const { packer } = context.state;
  const name = packer === null ? 'Rigger' : (personById(context.loft, packer)?.name ?? 'Rigger');
  const ask = plain(`${name}, scan your badge to sign.`);
  const mark = context.loft.settings.seals === true ? sealMarkOf(context.loft, context.state) : null;
  const seal = mark === null ? plain('') : words`Seal the pack with your mark, ${serialWords(mark)}, before you sign.`;
  if (context.brief) return joinWords([seal, ask]);
  return joinWords([plain('Tools, temporary items, holds and values agree.'), seal, ask]);
}

function handingOver(here: Here): Words {
  const { phase, context } = here;
  const to = personName(context, handOverOf(here).to);
  if (phase === 'handOverReason') return choices(words`Hand-over to ${to}: for which reason?`, labelsOf(REASONS));
  if (phase === 'handOverLeaving') {
    const from = personName(context, context.state.packer);
    return words`${from}, scan your badge to let the pack go. Where ${from} cannot, a lead scans a badge instead.`;
  }
  const look = lastReleased(here);
  if (look === null) return plain('');
  const { hold: looked, stage } = look;
  return words`${to}, look back: hold ${looked.title} after stage ${stage.number} stands as it was released. Is that right?`;
}

function standingBy({ task, context }: Here): Words {
  const resume = context.badgeWanted
    ? `${personName(context, context.state.packer)}, it was a long break. Scan your badge to go on.`
    : `Say ${phraseOf('resume')} to go on.`;
  const ask = plain(`${resume} To take over, another rigger scans a badge.`);
  return context.brief ? ask : joinWords([words`Standing by at ${placeWords(task)}.`, ask]);
}
