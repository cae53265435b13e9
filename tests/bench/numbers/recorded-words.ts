/**
 * Numbers put together from single recorded words: Debian's `asterisk-core-sounds-en-wav` (one speaker, 8 kHz, list
 * intonation, CC BY-SA 3.0), unpacked anywhere outside the project.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SAMPLE_RATE } from '@stowcall/web-speech/core';
import { parseWav } from '@stowcall/web-speech/flite';
import { resample } from '../speech/resample';

/** Where the package has what the number grammar knows. */
const FILES: Readonly<Record<string, string>> = {
  zero: 'digits/0',
  oh: 'digits/oh',
  niner: 'phonetic/9_p',
  and: 'vm-and',
  eighth: 'digits/h-8',
  sixteenth: 'digits/h-16',
  hundred: 'digits/hundred',
  ...Object.fromEntries(
    'one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'
      .split(' ')
      .map((word, index) => [word, `digits/${index + 1}`]),
  ),
  ...Object.fromEntries(
    'twenty thirty forty fifty sixty seventy eighty ninety'
      .split(' ')
      .map((word, index) => [word, `digits/${10 * (index + 2)}`]),
  ),
};

export const RECORDED_WORDS: readonly string[] = Object.keys(FILES);

/** Softer than this part of its loudest sample is silence, at the ends of a recording: the "s" of "six" is soft. */
const SILENCE = 0.004;
/** Seconds kept beyond it: a soft first sound lies there. */
const MARGIN = 0.03;
/** Seconds between two words, from the shortest to the longest. */
const GAP = [0.02, 0.08] as const;

/** Reads the words from the folder that holds `digits` and `phonetic`. Throws where one is missing. */
export function readRecordedWords(folder: string): ReadonlyMap<string, Float32Array> {
  return new Map(
    Object.entries(FILES).map(([word, file]) => {
      const sound = parseWav(readFileSync(join(folder, `${file}.wav`)));
      if (!sound.ok) throw new Error(`${file}.wav: ${sound.detail}`);
      return [word, trimmed(resample(sound.value.samples, sound.value.sampleRate, SAMPLE_RATE))];
    }),
  );
}

function trimmed(samples: Float32Array): Float32Array {
  const loudest = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const isLoud = (sample: number): boolean => Math.abs(sample) > SILENCE * loudest;
  const margin = Math.round(MARGIN * SAMPLE_RATE);
  const first = samples.findIndex(isLoud);
  const last = samples.findLastIndex(isLoud);
  return samples.slice(Math.max(0, first - margin), last + margin);
}

/** The words one after another; `chance` (0 to 1) gives each gap its length. */
export function spokenTogether(
  words: readonly string[],
  sounds: ReadonlyMap<string, Float32Array>,
  chance: () => number,
): Float32Array {
  const parts = words.flatMap((word, index) => {
    const sound = sounds.get(word);
    if (sound === undefined) throw new Error(`there is no recording of "${word}"`);
    const gap = GAP[0] + (GAP[1] - GAP[0]) * chance();
    return index === 0 ? [sound] : [new Float32Array(Math.round(gap * SAMPLE_RATE)), sound];
  });
  const all = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
