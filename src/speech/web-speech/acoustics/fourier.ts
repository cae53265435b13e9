/** The Fourier transform of 512 points. */

export const POINTS = 512;

const COSINES = Float64Array.from({ length: POINTS / 2 }, (_, at) => Math.cos((2 * Math.PI * at) / POINTS));
const SINES = Float64Array.from({ length: POINTS / 2 }, (_, at) => -Math.sin((2 * Math.PI * at) / POINTS));

/** In place (radix 2, decimation in time). */
export function transform(real: Float64Array, imaginary: Float64Array): void {
  reorder(real, imaginary);
  for (let size = 2; size <= POINTS; size *= 2) {
    const half = size / 2;
    for (let start = 0; start < POINTS; start += size) {
      for (let at = 0; at < half; at += 1) {
        const turn = (at * POINTS) / size;
        const [cos, sin] = [COSINES[turn] ?? 0, SINES[turn] ?? 0];
        const [low, high] = [start + at, start + at + half];
        const [r, i] = [real[high] ?? 0, imaginary[high] ?? 0];
        const [turnedR, turnedI] = [r * cos - i * sin, r * sin + i * cos];
        real[high] = (real[low] ?? 0) - turnedR;
        imaginary[high] = (imaginary[low] ?? 0) - turnedI;
        real[low] = (real[low] ?? 0) + turnedR;
        imaginary[low] = (imaginary[low] ?? 0) + turnedI;
      }
    }
  }
}

/** Undoes `transform`, in place. */
export function untransform(real: Float64Array, imaginary: Float64Array): void {
  // The inverse is the transform with the two parts exchanged.
  transform(imaginary, real);
  for (let at = 0; at < POINTS; at += 1) {
    real[at] = (real[at] ?? 0) / POINTS;
    imaginary[at] = (imaginary[at] ?? 0) / POINTS;
  }
}

/** Points in the order of their bits read backwards. */
function reorder(real: Float64Array, imaginary: Float64Array): void {
  for (let at = 1, mirror = 0; at < POINTS; at += 1) {
    let bit = POINTS / 2;
    for (; (mirror & bit) !== 0; bit /= 2) mirror -= bit;
    mirror += bit;
    if (at < mirror) {
      [real[at], real[mirror]] = [real[mirror] ?? 0, real[at] ?? 0];
      [imaginary[at], imaginary[mirror]] = [imaginary[mirror] ?? 0, imaginary[at] ?? 0];
    }
  }
}
