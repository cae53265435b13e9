/** How far two utterances are apart when one is stretched in time to fit the other. */

/** Frame after frame, `width` numbers each. */
export interface Frames {
  readonly values: Float32Array;
  readonly width: number;
}

/**
 * The mean distance of frames on the best path (dynamic time warping in its symmetric form, divided by the sum of both
 * lengths: Sakoe and Chiba, IEEE Trans. ASSP 26, 1978, 43-49, eqs. 6 to 9). Infinite where one of them is empty.
 */
export function warpedDistance(one: Frames, other: Frames): number {
  const [rows, columns] = [one.values.length / one.width, other.values.length / other.width];
  const distance = frameDistances(one, other);
  let above = new Float64Array(columns + 1).fill(Number.POSITIVE_INFINITY);
  let here = new Float64Array(columns + 1);
  above[0] = 0;
  for (let row = 0; row < rows; row += 1) {
    here[0] = Number.POSITIVE_INFINITY;
    for (let column = 0; column < columns; column += 1) {
      const cost = distance(row, column);
      const straight = (above[column] ?? 0) + 2 * cost;
      here[column + 1] = Math.min(straight, (above[column + 1] ?? 0) + cost, (here[column] ?? 0) + cost);
    }
    [above, here] = [here, above];
  }
  return rows === 0 || columns === 0 ? Number.POSITIVE_INFINITY : (above[columns] ?? 0) / (rows + columns);
}

/** How far frame `row` of the one is from frame `column` of the other. */
function frameDistances(one: Frames, other: Frames): (row: number, column: number) => number {
  return (row, column) => {
    const [a, b] = [row * one.width, column * other.width];
    let sum = 0;
    for (let place = 0; place < one.width; place += 1) {
      sum += ((one.values[a + place] ?? 0) - (other.values[b + place] ?? 0)) ** 2;
    }
    return Math.sqrt(sum);
  };
}
