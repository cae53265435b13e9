/** Temporary items before the container is closed, and before the signature: each that is out was seen in the tray. */
import type { Here } from '../../machine/context';
import { readBackOf } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act, MAIN, phraseOf } from '../../machine/legal';
import type { Detail } from '../../machine/view';
import type { Tasks } from '../../state/task';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { listOf, plain } from '../../words/words';
import type { Step } from '../step';
import { usualActs } from '../usual-acts';

type ItemsTask = Tasks['items'];

function names({ out, inside }: ItemsTask): { readonly tray: string; readonly within: string } {
  const listed = (items: ItemsTask['out']): string =>
    items.length === 0 ? 'none' : listOf(items.map(({ name }) => name));
  return { tray: listed(out), within: listed(inside) };
}

/** One statement for all of them, read back by name. */
function acts(here: Here<'items'>): readonly Act[] {
  const { task } = here;
  const { before, out, inside } = task;
  const { tray, within } = names(task);
  return [
    act('itemsSeen', MAIN, (_, { channel }) =>
      readBackOf(here, plain(`Seen in the tray: ${tray}. Inside: ${within}.`), {
        kind: 'store',
        by: here.context.state.packer,
        bodies: [
          {
            kind: 'itemsAccounted',
            before,
            out: out.map(({ id }) => id),
            inside: inside.map(({ id }) => id),
            channel,
          },
        ],
        remark: null,
      }),
    ),
  ];
}

/** Which items must lie where. */
function prompt({ context, task }: Here<'items'>): readonly PromptPart[] {
  const { tray, within } = names(task);
  const ask = [
    part('todo', `In the tray must lie: ${tray}. Inside must be: ${within}.`),
    part('say', `Say ${phraseOf('itemsSeen')} when that is so.`),
  ];
  if (context.brief) return ask;
  return [
    part('todo', 'Look at the temporary items, one by one.'),
    ...ask,
    part('say', 'Where one may be inside, say reopen stage and the number of the stage.'),
  ];
}

function detail({ task }: Here<'items'>): Detail {
  const { before, out, inside } = task;
  const namesOf = (all: ItemsTask['out']): readonly string[] => all.map(({ name }) => name);
  return { screen: 'items', beforeClosing: before === 'closing', out: namesOf(out), inside: namesOf(inside) };
}

export const itemsStep: Step<'items'> = {
  acts: (here) => [...acts(here), ...usualActs(here)],
  prompt,
  detail,
};
