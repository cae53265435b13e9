/**
 * Port: a second opinion on an utterance. Its errors should be others than the engine's; the two are then added up. Any
 * function from features to scores will do, also one that asks a network.
 */

export interface SpeakerScorer {
  /**
   * How much speaks for each of these phrases and against all else that this ear knows, as a natural logarithm: above 0
   * for the phrase, below 0 against it, and 0 where it cannot tell. `features` as `featuresOf` makes them.
   */
  scores(features: Float32Array, phrases: readonly string[]): readonly number[];
}

export interface Weighted {
  readonly ear: SpeakerScorer;
  /** What one unit of its scores is worth in the engine's: 0 switches it off. */
  readonly weight: number;
}

/** Several speaker scorers as one: their scores add up, each with its weight. */
export function summed(parts: readonly Weighted[]): SpeakerScorer {
  return {
    scores: (features, phrases) => {
      const each = parts.map(({ ear, weight }) => ear.scores(features, phrases).map((score) => score * weight));
      return phrases.map((_, index) => each.reduce((sum, scores) => sum + (scores[index] ?? 0), 0));
    },
  };
}
