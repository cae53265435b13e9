/** What a recognition listens for, and what it knows beside it. */

/** JSGF texts; their public rules can be said. */
export interface Grammars {
  readonly wanted: readonly string[];
  /** Known so that they are not taken for what is wanted, and never told. */
  readonly others: readonly string[];
  /** Those of the wanted phrases that do little harm where they were not said: less certainty is enough for them. */
  readonly lowRisk: readonly string[];
  /** What a wanted phrase with a slot must not be better said as; searched only once such a phrase was found. */
  readonly rivals: readonly string[];
  /** Set where a phrase is to be described when it was said. It must then stand out more clearly than a command. */
  readonly isSampled?: true;
}
