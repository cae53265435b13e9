/** The step of signing: what is signed for, and the badge of the rigger. */
import { personById } from '../../../domain/loft';
import type { Here } from '../../machine/context';
import type { PromptPart } from '../../words/prompt-parts';
import { part } from '../../words/prompt-parts';
import { serialWords, words } from '../../words/words';
import type { Step } from '../step';
import { usualActs } from '../usual-acts';
import { sealMarkOf } from './log-record-of';
import { signScan } from './sign';

function prompt({ context }: Here): readonly PromptPart[] {
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

export const signStep: Step<'sign'> = {
  acts: usualActs,
  prompt,
  detail: ({ task }) => ({ screen: 'sign', checks: task.checks }),
  scan: (here) => ({ wanted: 'signature', take: (scan) => signScan(here, scan) }),
};
