/** The conditions of a bench, as the command line names them. */
import type { Room } from '@stowcall/web-speech/calibration/room';

export interface Condition extends Room {
  readonly name: string;
  /** Of what could be said each so manieth is, others in each condition: a bench of everything takes hours. */
  readonly every: number;
}

/** `quiet` or `NOISE@DB`, and `/N` behind it for each Nth saying. Throws for anything else. */
export function parseCondition(text: string, read: (noise: string) => Float32Array): Condition {
  const [, name = '', noise, snr, every = '1'] = /^(quiet|(\w+)@(\d+(?:\.\d+)?))(?:\/([1-9]\d*))?$/.exec(text) ?? [];
  if (name === '') throw new Error(`"${text}" is no condition: write quiet, pink_noise@12, or pink_noise@12/3`);
  if (noise === undefined) return { name, noise: null, snr: Number.POSITIVE_INFINITY, every: Number(every) };
  return { name, noise: read(noise), snr: Number(snr), every: Number(every) };
}
