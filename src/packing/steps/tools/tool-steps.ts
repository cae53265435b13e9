/** The three steps of counting tools: out, before the container is closed, and before the signature. */
import type { Here } from '../../machine/context';
import type { Detail } from '../../machine/view';
import { countGiven, isToldBefore } from '../../words/blind';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { capital, plain, words } from '../../words/words';
import { closeUpChecks } from '../close-up/close-up';
import { assemblyById } from '../identify/check-in';
import type { Step } from '../step';
import { usualActs } from '../usual-acts';
import { toolBackActs, toolOutActs } from './tool-count';

type ToolKind = 'toolOut' | 'toolCheck' | 'toolBack';

const COUNT_TOOLS: Readonly<Record<ToolKind, string>> = {
  toolOut: 'Count the tools out, line by line.',
  toolCheck: 'Before the container is closed, count the tools, line by line. None may be inside.',
  toolBack: 'All stages are done. Count the tools once more, line by line.',
};

function prompt(here: Here<ToolKind>): readonly PromptPart[] {
  const { task, context } = here;
  const { tool, index, kind } = task;
  const out = kind === 'toolOut';
  const owed = out ? tool.count : (context.state.toolsOut.get(tool.id) ?? tool.count);
  const name = capital(tool.name);
  const told = isToldBefore(here) ? words` ${owed} ${plain(out ? 'planned' : 'out')}.` : plain('');
  const ask = part('todo', words`${name}:${told} ${plain(out ? 'how many?' : 'how many are outside the pack?')}`);
  if (context.brief || index > 0) return [ask];
  return [part('todo', COUNT_TOOLS[kind]), ask, part('say', 'Count them, then say the number and the word tools.')];
}

function outDetail(here: Here<'toolOut'>): Detail {
  const { context, task } = here;
  const { procedure, index } = task;
  const { agreed, checkIn, toolsOut: out } = context.state;
  return {
    screen: 'checkIn',
    assembly: assemblyById(context.loft, agreed?.assembly ?? '')?.name ?? '',
    procedure: `${procedure.title}, revision ${procedure.revision}`,
    checks: checkIn?.checks ?? [],
    tools: procedure.tools.map(({ id, name, count }, at) => {
      const counted = out.get(id) ?? (at === index ? countGiven(here) : null);
      return { name, planned: counted !== null || isToldBefore(here) ? count : null, counted };
    }),
    current: index,
  };
}

function backDetail(here: Here<'toolCheck' | 'toolBack'>): Detail {
  const { context, task } = here;
  const { kind, procedure, index } = task;
  const beforeClosing = kind === 'toolCheck';
  const { toolsOut: out, toolsAccounted, toolsBack: later } = context.state;
  const back = beforeClosing ? toolsAccounted : later;
  return {
    screen: 'closeUp',
    tools: procedure.tools.map(({ id, name, count }, at) => {
      const returned = back.get(id) ?? (at === index ? countGiven(here) : null);
      const issued = returned !== null || isToldBefore(here) ? (out.get(id) ?? count) : null;
      return { name, issued, returned };
    }),
    current: index,
    checks: beforeClosing ? [] : closeUpChecks(procedure, context.state).filter((line) => line.label !== 'Tools back'),
    beforeClosing,
  };
}

export const toolOutStep: Step<'toolOut'> = {
  acts: (here) => [...toolOutActs(here), ...usualActs(here)],
  prompt,
  detail: outDetail,
};

export const toolCheckStep: Step<'toolCheck'> = {
  acts: (here) => [...toolBackActs(here), ...usualActs(here)],
  prompt,
  detail: backDetail,
};

export const toolBackStep: Step<'toolBack'> = {
  acts: (here) => [...toolBackActs(here), ...usualActs(here)],
  prompt,
  detail: backDetail,
};
