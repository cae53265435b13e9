/** The trainee's rehearsal: a procedure read aloud stage by stage at one's own pace. Nothing is recorded. */
import type { SnapshotFrom } from 'xstate';
import { assign, setup } from 'xstate';
import { assert } from '../../domain/assert';
import type { Command, CommandName } from '../../domain/command';
import type { Procedure, Stage } from '../../domain/procedure';
import { legalCommand, MAIN, phraseOf } from '../machine/legal';
import { demonstrationLine, demonstrationWords } from '../words/notices';
import type { LegalCommand, Notice, RehearsalView, StepPrompt } from '../machine/view';
import { stageRead } from '../steps/stage/stage-read';
import { part } from '../words/prompt-parts';
import { stepPrompt } from '../words/step-prompt';
import type { Words } from '../words/words';
import { joinWords, plain, sentence, words } from '../words/words';

export interface RehearsalInput {
  readonly procedure: Procedure;
  /** Speaking rate to begin with, 1 = as the voice was made. */
  readonly rate: number;
}

export interface RehearsalEvent {
  readonly type: 'COMMAND';
  readonly command: Command;
}

export interface RehearsalContext extends RehearsalInput {
  /** One-based number of the stage that is read. */
  readonly number: number;
  readonly notice: Notice | null;
  readonly utterance: number;
}

const SLOWEST = 0.5;
const FASTEST = 2;
const STEP = 0.25;

const clamp = (rate: number): number => Math.min(FASTEST, Math.max(SLOWEST, rate));

function stageAt({ procedure, number }: RehearsalContext): Stage {
  const stage = procedure.stages[number - 1];
  assert(stage !== undefined, 'a rehearsal stands at a stage of its procedure');
  return stage;
}

function legalNow({ procedure, number, rate }: RehearsalContext): readonly LegalCommand[] {
  const options = procedure.stages.map((stage) => ({ number: stage.number, label: stage.title }));
  const all: readonly (readonly [boolean, LegalCommand])[] = [
    [number < procedure.stages.length, legalCommand('next', MAIN)],
    [true, legalCommand('sayAgain')],
    [rate > SLOWEST, legalCommand('slower')],
    [rate < FASTEST, legalCommand('faster')],
    [true, legalCommand('goToStage', { input: { kind: 'choice', options, note: null } })],
    [true, legalCommand('finish', { main: number === procedure.stages.length })],
  ];
  return all.filter(([legal]) => legal).map(([, command]) => command);
}

function changed(context: RehearsalContext, command: Command): Partial<RehearsalContext> {
  const said = { notice: null, utterance: context.utterance + 1 };
  const notice = (text: string) => ({ ...said, notice: { tone: 'refusal' as const, text } });
  if (!legalNow(context).some(({ name }) => name === command.name)) {
    return notice(`Not now: ${legalCommand(command.name).label.toLowerCase()}.`);
  }
  switch (command.name) {
    case 'next':
      return { ...said, number: context.number + 1 };
    case 'slower':
      return { ...said, rate: clamp(context.rate - STEP) };
    case 'faster':
      return { ...said, rate: clamp(context.rate + STEP) };
    case 'goToStage': {
      const stage = context.procedure.stages.find((one) => one.number === command.stage);
      const last = context.procedure.stages.length;
      return stage === undefined ? notice(`There are stages 1 to ${String(last)}.`) : { ...said, number: stage.number };
    }
    default:
      return said;
  }
}

const rehearsalSetup = setup({
  types: {
    context: {} as RehearsalContext,
    events: {} as RehearsalEvent,
    input: {} as RehearsalInput,
  },
  guards: { finishes: ({ event }) => isFinish(event.command.name) },
  actions: { change: assign(({ context, event }) => changed(context, event.command)) },
});

function isFinish(name: CommandName): boolean {
  return name === 'finish';
}

export const rehearsalMachine = rehearsalSetup.createMachine({
  id: 'rehearsal',
  context: ({ input }) => {
    assert(input.procedure.stages.length > 0, 'a procedure has stages');
    return { procedure: input.procedure, rate: clamp(input.rate), number: 1, notice: null, utterance: 0 };
  },
  initial: 'reading',
  states: {
    reading: { on: { COMMAND: [{ guard: 'finishes', target: 'finished' }, { actions: 'change' }] } },
    finished: { type: 'final' },
  },
});

function holdWords(stage: Stage): Words {
  if (stage.hold === null) return plain('');
  const { title, inspect } = stage.hold;
  return joinWords([words`Then an inspection hold: ${sentence(title)}`, ...inspect.map((one) => plain(sentence(one)))]);
}

const LAST = `This was the last stage. Say ${phraseOf('finish')} to end, or go to stage and a number to hear one again.`;

function promptOf(context: RehearsalContext): StepPrompt {
  const { procedure, number, utterance, notice } = context;
  const stage = stageAt(context);
  return stepPrompt(utterance, [
    part('notice', { say: notice?.text ?? '', show: '' }),
    part('caution', utterance === 0 ? demonstrationWords(procedure) : ''),
    ...stageRead(stage, procedure),
    part('lines', holdWords(stage)),
    part('say', number === procedure.stages.length ? LAST : ''),
  ]);
}

/** What the trainee sees and hears. */
export function rehearsalViewOf({ context, status }: SnapshotFrom<typeof rehearsalMachine>): RehearsalView {
  const { procedure, number, rate, notice } = context;
  const stage = stageAt(context);
  return {
    procedure: procedure.title,
    revision: procedure.revision,
    number,
    of: procedure.stages.length,
    title: stage.title,
    steps: stage.steps,
    caution: stage.caution,
    hold: stage.hold === null ? null : holdWords(stage).show,
    rate,
    prompt: promptOf(context),
    notice,
    demonstration: demonstrationLine(procedure),
    legal: status === 'active' ? legalNow(context) : [],
  };
}
