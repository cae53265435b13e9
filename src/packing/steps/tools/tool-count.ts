/** Tools are counted line by line: out before the first stage, before the container is closed, and before the signature. */
import { MOST_COUNTED } from '../../../domain/enterable';
import type { FactBody } from '../../../domain/fact';
import type { ToolLine } from '../../../domain/procedure';
import { exampleCount } from '../../words/blind';
import type { Here } from '../../machine/context';
import { isSoundCount, unsoundCount } from '../../words/counting';
import type { Decision } from '../../machine/decision';
import { readBackOf, refusal, remarkOn } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act } from '../../machine/legal';
import { taskKey } from '../../state/task';
import type { Words } from '../../words/words';
import { capital, countWords, words } from '../../words/words';

interface ToolCount {
  readonly tool: ToolLine;
  /** Planned when going out, issued when coming back. */
  readonly owed: number;
  readonly body: FactBody;
  /** Made only for a sound count: what is no count cannot even be said. */
  readonly wrong: () => Words;
}

function readBackCount(here: Here, counted: number, count: ToolCount): Decision {
  if (!isSoundCount(counted)) return remarkOn(here, unsoundCount());
  const asked = words`${capital(count.tool.name)}: ${countWords(counted, 'tools')}.`;
  const given = { step: taskKey(here.task), count: counted };
  if (counted !== count.owed) return readBackOf(here, asked, { kind: 'refuse', remark: refusal(count.wrong()), given });
  return readBackOf(here, asked, {
    kind: 'store',
    by: here.context.state.packer,
    bodies: [count.body],
    remark: null,
  });
}

function toolAct(owed: number, take: (counted: number) => Decision): Act {
  const phrase = exampleCount(owed, 'tools');
  return act(
    'count',
    { main: true, phrase, label: 'Count tools', input: { kind: 'count', noun: 'tools', max: MOST_COUNTED } },
    ({ count }) => take(count),
  );
}

/** Counting a line out: the plan must be met. */
export function toolOutActs(here: Here<'toolOut'>): readonly Act[] {
  const { tool } = here.task;
  const out = (counted: number): Decision =>
    readBackCount(here, counted, {
      tool,
      owed: tool.count,
      body: { kind: 'toolIssued', tool: tool.id, count: counted },
      wrong: () =>
        words`Not taken: ${tool.name}: ${countWords(counted, 'tools')} counted, ${tool.count} planned. Lay out exactly ${tool.count}, then count again.`,
    });
  return [toolAct(tool.count, out)];
}

/** Counting a line again, before closing or before the signature: every tool that went out lies outside the pack. */
export function toolBackActs(here: Here<'toolBack' | 'toolCheck'>): readonly Act[] {
  const { task, context } = here;
  const { tool } = task;
  const issued = context.state.toolsOut.get(tool.id) ?? tool.count;
  const back = (counted: number): Decision => {
    const wrong = (): Words => {
      const off = Math.abs(issued - counted);
      const which = counted < issued ? words`${off} missing` : words`${off} too many`;
      const inside =
        counted < issued ? ' If it may be inside, say reopen stage and the number of the stage to look in.' : '';
      return words`Not taken: ${tool.name}: ${issued} went out, ${counted} counted, ${which}. Look on the table and in the tray, then count again.${inside}`;
    };
    const kind = task.kind === 'toolCheck' ? ('toolAccounted' as const) : ('toolReturned' as const);
    const body = { kind, tool: tool.id, count: counted };
    return readBackCount(here, counted, { tool, owed: issued, body, wrong });
  };
  return [toolAct(issued, back)];
}
