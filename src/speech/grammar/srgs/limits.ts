/** Bounds that no grammar of ours comes near; a hostile file is refused rather than read. */
export const CHARACTERS_MAX = 1_000_000;
export const DEPTH_MAX = 100;
const REPEAT_MAX = 10_000;

/** What is wrong with a repeat (SRGS 2.5, 2.5.1); null where nothing is. */
export function repeatFault(min: number, max: number | null, probability: number | null): string | null {
  if (max !== null && max < min) return `A repeat from ${min} to ${max} runs backwards.`;
  if (min > REPEAT_MAX || (max ?? 0) > REPEAT_MAX) return `Repeats go to ${REPEAT_MAX} at most.`;
  return probability !== null && probability > 1 ? 'A probability lies between 0 and 1.' : null;
}
