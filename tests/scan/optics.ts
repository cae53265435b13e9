/** What lens and motion do to a made picture. */

export interface Optics {
  readonly width: number;
  /** Gaussian sigma in pixels. */
  readonly blur: number;
  /** Length in pixels of a smear, and its direction in degrees from the level. */
  readonly motion: number;
  readonly motionAngle: number;
}

/** How far to look, counted in pixels of the whole picture, and the weight of what is seen there. */
type Tap = readonly [shift: number, weight: number];

/** The weighted sum of shifted pictures; beyond the first and last pixel the pixel itself stands in. */
function weighted(grey: Float32Array, taps: readonly Tap[]): Float32Array {
  const out = new Float32Array(grey.length);
  for (const [shift, weight] of taps) {
    const [from, to] = [Math.max(0, -shift), Math.min(grey.length, grey.length - shift)];
    for (let at = from; at < to; at += 1) out[at] = (out[at] ?? 0) + weight * (grey[at + shift] ?? 0);
    for (let at = 0; at < from; at += 1) out[at] = (out[at] ?? 0) + weight * (grey[at] ?? 0);
    for (let at = to; at < grey.length; at += 1) out[at] = (out[at] ?? 0) + weight * (grey[at] ?? 0);
  }
  return out;
}

function gaussian(sigma: number, step: number): readonly Tap[] {
  const reach = Math.max(1, Math.ceil(sigma * 3));
  const weights = Array.from({ length: 2 * reach + 1 }, (_, index) =>
    Math.exp(-((index - reach) ** 2) / (2 * sigma ** 2)),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight, index): Tap => [(index - reach) * step, weight / total]);
}

/** A smear in any direction: the mean of the picture along a short line. */
function smear({ width, motion, motionAngle }: Optics): readonly Tap[] {
  const steps = Math.max(1, Math.round(motion));
  const [cos, sin] = [Math.cos((motionAngle * Math.PI) / 180), Math.sin((motionAngle * Math.PI) / 180)];
  return Array.from({ length: steps + 1 }, (_, step): Tap => {
    const along = step - steps / 2;
    return [Math.round(along * cos) + Math.round(along * sin) * width, 1 / (steps + 1)];
  });
}

/** The picture as a lens that is not quite sharp, and a hand that is not quite still, leave it. */
export function blurred(grey: Float32Array, optics: Optics): Float32Array {
  const { width, blur, motion } = optics;
  const sharp = blur <= 0 ? grey : weighted(weighted(grey, gaussian(blur, 1)), gaussian(blur, width));
  return motion >= 1 ? weighted(sharp, smear(optics)) : sharp;
}
