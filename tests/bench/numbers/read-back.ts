/** What is left of wrong values when each is said back and counts only after "affirm". */
import { shareOf } from '@stowcall/web-speech/calibration/interval';

export interface ReadBack {
  /** Wrong values among those that were said. */
  readonly wrong: number;
  readonly said: number;
  /** How often "negative" was heard as "affirm", and how often it was said. */
  readonly mistaken: number;
  readonly negatives: number;
}

/**
 * A wrong value counts only where the person's "negative" is heard as "affirm"; a "negative" that is not heard is said
 * again. So the share is the product of both shares, and its upper end the product of their upper ends (95 % each, so
 * the product is no lower than a 95 % end of its own). Not in it: a person who affirms a wrong value.
 */
export function wrongAfterReadBack({ wrong, said, mistaken, negatives }: ReadBack): {
  readonly share: number;
  readonly upper: number;
} {
  const value = shareOf(wrong, said);
  const answer = shareOf(mistaken, negatives);
  return { share: value.share * answer.share, upper: value.interval[1] * answer.interval[1] };
}
