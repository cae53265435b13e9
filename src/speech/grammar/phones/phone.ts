/**
 * The phones of the recogniser (ARPAbet without stress) and how alike two of them sound, from 0 (same) to 1.4.
 * The costs are our own: no published table was copied, and no listening test stands behind them. They order pairs of
 * phrases by risk; they do not predict a rate of errors.
 */

/** Place on the vowel chart: height from 0 (close) to 1 (open), backness from 0 (front) to 1 (back). */
interface VowelPoint {
  readonly height: number;
  readonly back: number;
}

const at = (height: number, back: number): VowelPoint => ({ height, back });

/** Where each vowel begins and ends; the two differ for diphthongs. */
const VOWELS: Readonly<Record<string, readonly [VowelPoint, VowelPoint]>> = {
  IY: [at(0, 0), at(0, 0)],
  IH: [at(0.2, 0.15), at(0.2, 0.15)],
  EH: [at(0.6, 0.15), at(0.6, 0.15)],
  AE: [at(0.85, 0.15), at(0.85, 0.15)],
  AH: [at(0.6, 0.6), at(0.6, 0.6)],
  ER: [at(0.5, 0.5), at(0.5, 0.5)],
  AA: [at(1, 0.8), at(1, 0.8)],
  AO: [at(0.7, 1), at(0.7, 1)],
  UH: [at(0.25, 0.8), at(0.25, 0.8)],
  UW: [at(0, 0.9), at(0, 0.9)],
  EY: [at(0.5, 0.1), at(0.1, 0.05)],
  AY: [at(1, 0.5), at(0.15, 0.1)],
  OY: [at(0.65, 1), at(0.15, 0.1)],
  AW: [at(1, 0.5), at(0.15, 0.85)],
  OW: [at(0.5, 0.8), at(0.15, 0.85)],
};

type Manner = 'stop' | 'affricate' | 'fricative' | 'nasal' | 'liquid' | 'glide';

interface Consonant {
  readonly manner: Manner;
  /** Place of articulation, from 0 (lips) to 1 (glottis). */
  readonly place: number;
  readonly voiced: boolean;
}

const consonant = (manner: Manner, place: number, voiced: boolean): Consonant => ({ manner, place, voiced });

const CONSONANTS: Readonly<Record<string, Consonant>> = {
  P: consonant('stop', 0, false),
  B: consonant('stop', 0, true),
  T: consonant('stop', 0.4, false),
  D: consonant('stop', 0.4, true),
  K: consonant('stop', 0.8, false),
  G: consonant('stop', 0.8, true),
  CH: consonant('affricate', 0.5, false),
  JH: consonant('affricate', 0.5, true),
  F: consonant('fricative', 0.1, false),
  V: consonant('fricative', 0.1, true),
  TH: consonant('fricative', 0.25, false),
  DH: consonant('fricative', 0.25, true),
  S: consonant('fricative', 0.4, false),
  Z: consonant('fricative', 0.4, true),
  SH: consonant('fricative', 0.5, false),
  ZH: consonant('fricative', 0.5, true),
  HH: consonant('fricative', 1, false),
  M: consonant('nasal', 0, true),
  N: consonant('nasal', 0.4, true),
  NG: consonant('nasal', 0.8, true),
  L: consonant('liquid', 0.4, true),
  R: consonant('liquid', 0.55, true),
  W: consonant('glide', 0.05, true),
  Y: consonant('glide', 0.65, true),
};

/** Distance of two manners of articulation; pairs that are not named are 0.6 apart. */
const MANNERS: Readonly<Record<string, number>> = {
  'affricate stop': 0.25,
  'affricate fricative': 0.25,
  'fricative stop': 0.4,
  'nasal stop': 0.5,
  'liquid nasal': 0.45,
  'glide liquid': 0.3,
};

export const PHONES: readonly string[] = [...Object.keys(VOWELS), ...Object.keys(CONSONANTS)].sort();

export function isPhone(text: string): boolean {
  return text in VOWELS || text in CONSONANTS;
}

/**
 * Cost of deleting or inserting a phone. A vowel makes a syllable and is hard to miss, save the two that fast speech
 * reduces; HH is a breath and easily missed.
 */
export function deletionCost(phone: string): number {
  if (phone in VOWELS) return phone === 'AH' || phone === 'IH' ? 0.7 : 1;
  return phone === 'HH' ? 0.4 : 0.7;
}

/** A cache of the costs: phrases are compared by the hundred thousand. */
const distances = new Map<string, Map<string, number>>();

/** Cost of substituting one phone for another. A vowel for a consonant costs as much as deleting one and inserting the other. */
export function phoneDistance(a: string, b: string): number {
  let known = distances.get(a);
  if (known === undefined) distances.set(a, (known = new Map()));
  let distance = known.get(b);
  if (distance === undefined) known.set(b, (distance = distanceOf(a, b)));
  return distance;
}

function distanceOf(a: string, b: string): number {
  if (a === b) return 0;
  const [vowelA, vowelB] = [VOWELS[a], VOWELS[b]];
  const [consonantA, consonantB] = [CONSONANTS[a], CONSONANTS[b]];
  if (vowelA !== undefined && vowelB !== undefined) {
    const far = (span(vowelA[0], vowelB[0]) + span(vowelA[1], vowelB[1])) / 2;
    return Math.min(1, 0.2 + 0.8 * far);
  }
  if (consonantA !== undefined && consonantB !== undefined) return consonantDistance(consonantA, consonantB);
  return deletionCost(a) + deletionCost(b);
}

function span(a: VowelPoint, b: VowelPoint): number {
  return Math.hypot(a.height - b.height, a.back - b.back);
}

function consonantDistance(a: Consonant, b: Consonant): number {
  const manner = a.manner === b.manner ? 0 : (MANNERS[[a.manner, b.manner].sort().join(' ')] ?? 0.6);
  const voice = a.voiced === b.voiced ? 0 : 0.2;
  return Math.min(1, 0.1 + manner + voice + 0.4 * Math.abs(a.place - b.place));
}
