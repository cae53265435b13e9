/** How much harm a command can do where it was not said: declared for each rule in the grammar's own meta data. */
import type { Grammar } from '@stowcall/grammar';

/** From the least to the greatest. */
export const RISKS = ['low', 'high'] as const;
export type Risk = (typeof RISKS)[number];

const PREFIX = 'risk.';

/**
 * The risk of a rule, from `meta "risk.NAME" is "low";` in the header (SRGS 4.11.1 leaves the names of meta data to the
 * author). A rule without one, with an unknown one, or with two that differ, has the greatest: in doubt the ear must
 * be surest.
 */
export function riskOf({ header }: Grammar, rule: string): Risk {
  const declared = header.metas.filter(({ kind, name }) => kind === 'meta' && name === PREFIX + rule);
  return declared.length > 0 && declared.every(({ content }) => content === 'low') ? 'low' : 'high';
}
