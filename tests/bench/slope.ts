/** Whether a row of measurements rises: a straight line by least squares, and how sure its slope is. */

export interface Slope {
  /** Rise from one measurement to the next. */
  readonly slope: number;
  /** Standard error of the slope, from the scatter about the line. */
  readonly error: number;
  /** The slope is not above zero by more than two standard errors. */
  readonly flat: boolean;
}

/** The slope of at least three measurements at equal distances. */
export function slopeOf(values: readonly number[]): Slope {
  const n = values.length;
  if (n < 3) throw new Error('A slope and its error need three measurements or more');
  const middle = (n - 1) / 2;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const spread = values.reduce((sum, _, at) => sum + (at - middle) ** 2, 0);
  const slope = values.reduce((sum, value, at) => sum + (at - middle) * (value - mean), 0) / spread;
  const rest = values.reduce((sum, value, at) => sum + (value - mean - slope * (at - middle)) ** 2, 0);
  const error = Math.sqrt(rest / (n - 2) / spread);
  const round = (number: number): number => Math.round(number * 100) / 100;
  return { slope: round(slope), error: round(error), flat: slope <= 2 * error };
}
