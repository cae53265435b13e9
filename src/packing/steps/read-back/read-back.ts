/** A read-back: nothing repeated counts before "affirm", and "negative" drops it. */
import { assert } from '../../../domain/assert';
import type { Here, ReadBack } from '../../machine/context';
import type { Decision } from '../../machine/decision';
import { answer, draft, moveTo, store } from '../../machine/decision';
import type { Act, Said } from '../../machine/legal';
import { act, MAIN } from '../../machine/legal';
import { part } from '../../words/prompt-parts';
import { plain } from '../../words/words';
import { sayAgain } from '../common-acts';
import { verdictScan } from '../hold/hold-scan';
import type { Step } from '../step';

/** What is being read back. */
export function pendingReadBack({ context }: Here): ReadBack {
  assert(context.readBack !== null, 'something is being read back');
  return context.readBack;
}

function affirm(here: Here, { at }: Said): Decision {
  const { from, onAffirm } = pendingReadBack(here);
  if (onAffirm.kind === 'refuse') {
    const { remark, given } = onAffirm;
    return moveTo(here, from, { readBack: null, brief: true, remark, given });
  }
  const { by, bodies, remark } = onAffirm;
  return store(
    here,
    bodies.map((body) => draft(here.context, { by, at, body })),
    { remark },
  );
}

function acts(here: Here): readonly Act[] {
  const { from } = pendingReadBack(here);
  return [
    act('affirm', MAIN, (_, said) => affirm(here, said)),
    act('negative', MAIN, () =>
      moveTo(here, from, { readBack: null, brief: true, remark: answer(plain('Not taken.')) }),
    ),
  ];
}

/** An inspector who is present can be replaced by another badge meanwhile. What is drawn is the step that it came from. */
export const readBackStep: Omit<Step, 'detail'> = {
  acts: (here) => [...acts(here), sayAgain(here)],
  prompt: (here) => [part('what', pendingReadBack(here).words)],
  scan: verdictScan,
};
