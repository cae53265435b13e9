/** What the screen draws while a pack stands by, a hand-over included. */
import type { Here } from '../../machine/context';
import type { Detail } from '../../machine/view';
import { personName, placeWords } from '../../state/place';

/** Since when, at which step, and who is taking over. */
export function standByDetail({ context, task }: Here): Detail {
  // A restart behind a long break stands by before the fact of it is stored.
  const since = context.state.standingBySince ?? context.freshFrom;
  const { handOver } = context;
  const handingTo = handOver === null ? null : personName(context, handOver.to);
  return { screen: 'standingBy', since, at: placeWords(task).show, handingTo };
}
