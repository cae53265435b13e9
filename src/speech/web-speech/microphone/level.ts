/** The live level: how loud the room is, on a scale that a person reads at a glance. */

/** Shown as nothing, in dB below full scale. */
const FLOOR_DB = -60;

/** 0 to 1, even in dB from -60 dB to full scale. `power` is the mean square of the samples. */
export function levelOf(power: number): number {
  if (!(power > 0)) return 0;
  const db = 10 * Math.log10(power);
  return Math.min(1, Math.max(0, 1 - db / FLOOR_DB));
}
