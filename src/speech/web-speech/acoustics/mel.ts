/** The mel scale, and what is equally wide on it: bands that meet, and the overlapping filters of cepstra. */

/** Mels of a frequency in Hz (O'Shaughnessy, Speech Communication, 1987, p. 150; HTK Book 3.4, eq. 5.13). */
export function melOf(hertz: number): number {
  return 2595 * Math.log10(1 + hertz / 700);
}

/** Undoes `melOf`. */
export function hertzOf(mels: number): number {
  return 700 * (10 ** (mels / 2595) - 1);
}

export interface FilterBank {
  /** The points of the spectrum between which it works, in Hz. */
  readonly lowest: number;
  readonly highest: number;
  readonly filters: number;
  /** Points of the Fourier transform, and the sample rate that it was made at. */
  readonly points: number;
  readonly rate: number;
}

/** The point of the spectrum at which each of so many bands begins, and one past the last: they meet, and do not overlap. */
export function melEdges({ lowest, highest, filters, points, rate }: FilterBank): readonly number[] {
  const [low, high] = [melOf(lowest), melOf(highest)];
  return Array.from({ length: filters + 1 }, (_, band) => {
    const mels = low + ((high - low) * band) / filters;
    return Math.round((hertzOf(mels) / rate) * points);
  });
}

/** One filter: what each point from `first` on counts in it. */
export interface Filter {
  readonly first: number;
  readonly weights: Float64Array;
}

/** Triangles that overlap by half, each from the middle of the one before to the middle of the one after. */
export function filterBank({ lowest, highest, filters, points, rate }: FilterBank): readonly Filter[] {
  const [low, high] = [melOf(lowest), melOf(highest)];
  const melAt = (place: number): number => low + ((high - low) * place) / (filters + 1);
  return Array.from({ length: filters }, (_, index) => {
    const [left, middle, right] = [melAt(index), melAt(index + 1), melAt(index + 2)];
    const first = Math.ceil((hertzOf(left) / rate) * points);
    const last = Math.floor((hertzOf(right) / rate) * points);
    const weights = Float64Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => {
      const mels = melOf(((first + at) * rate) / points);
      return mels < middle ? (mels - left) / (middle - left) : (right - mels) / (right - middle);
    });
    return { first, weights };
  });
}

/**
 * The first `length` coefficients of the cosine transform of these values (HTK Book 3.4, eq. 5.14; the transform is that
 * of Ahmed, Natarajan and Rao, IEEE Trans. Computers C-23, 1974, 90-93).
 */
export function cosineTransform(values: ArrayLike<number>, length: number): Float64Array {
  const count = values.length;
  return Float64Array.from({ length }, (_, order) => {
    let sum = 0;
    for (let at = 0; at < count; at += 1) {
      sum += (values[at] ?? 0) * Math.cos((Math.PI * order * (at + 0.5)) / count);
    }
    return Math.sqrt(2 / count) * sum;
  });
}
