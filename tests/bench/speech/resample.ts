/** Sound of one sample rate as sound of another. */

/** Zero crossings of the sinc on either side: more is steeper and slower. */
const CROSSINGS = 16;
/** Part of the lower of both half rates that is kept, so that nothing is folded back. */
const KEPT = 0.95;

/** `samples` made at `from` Hz, as if made at `to` Hz: windowed sinc (Hann), what is above either half rate is lost. */
export function resample(samples: Float32Array, from: number, to: number): Float32Array<ArrayBuffer> {
  if (from === to) return new Float32Array(samples);
  const cut = KEPT * Math.min(1, to / from);
  const reach = CROSSINGS / cut;
  const out = new Float32Array(Math.floor((samples.length * to) / from));
  for (let index = 0; index < out.length; index += 1) {
    const place = (index * from) / to;
    const first = Math.max(0, Math.ceil(place - reach));
    const last = Math.min(samples.length - 1, Math.floor(place + reach));
    let sum = 0;
    for (let at = first; at <= last; at += 1) {
      const away = at - place;
      const window = 0.5 + 0.5 * Math.cos((Math.PI * away) / reach);
      sum += (samples[at] ?? 0) * cut * sinc(cut * away) * window;
    }
    out[index] = sum;
  }
  return out;
}

function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
}
