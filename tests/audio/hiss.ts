/** White noise that is the same every time. */

/** `length` samples of this root mean square; another `seed` gives other noise. */
export function hiss(level: number, length: number, seed: number): Float32Array<ArrayBuffer> {
  let state = seed;
  return Float32Array.from({ length }, () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return (state / 1_073_741_824 - 1) * Math.sqrt(3) * level;
  });
}
