/**
 * Chooses what the comparison with a person's own samples is worth, from people who say a word twice, and writes it as
 * data: `npm run calibrate:enrolment [-- --out FILE] [--cache FILE] [--date YYYY-MM-DD] [--first N] [--held-out]`, the last of
 * which measures the weight in force on the other half of the speakers; `--first` hears only so many of them. Needs the recordings beside the project (`../shared`,
 * or `STOWCALL_SHARED`) and the 16 kHz model. Searches are kept in the cache; the first run takes a quarter of an hour.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { format, resolveConfig } from 'prettier';
import { z } from 'zod';
import { featuresOf } from '../acoustics/cepstra';
import type { SpeakerScorer } from '../rescoring/speaker-scorer';
import { templateScorerOf } from '../rescoring/template-scorer';
import { automatonOf } from '../engine/automaton';
import { SUPPORT_MAX, TEMPLATE_WEIGHT, THRESHOLDS } from '../decision/certainty';
import { parseJsgf } from '@stowcall/grammar';
import { readSound } from './read-sound';
import { shareOf } from './interval';
import { soundIn } from './room';
import type { Counts, Trial } from './choose';
import { countTrials } from './choose';
import type { CutWord, SpeakerSet } from './cut-words';
import { soundOf, speakerSets, wordsOf } from './cut-words';
import { EnrolledMeter } from './enrolled-meter';
import { onlyUtterance } from './utterances-in';
import { fingerprintOf, searchedData, SEARCHERS } from './fingerprint';
import { heldOutOf, SPLIT_RULE } from './split';
import { openNodeEngine, withRoom } from './node-listener';
import { readJsonRows } from './json-rows';
import { runMain } from './run-main';

const ROOT = fileURLToPath(new URL('../../../..', import.meta.url));
const SHARED = process.env['STOWCALL_SHARED'] ?? join(ROOT, '../shared');
const VOCABULARY =
  'one two three four five six seven eight nine zero enter erase rubout twenty thirty fifty sixty seventy yes no repeat stop help start go'.split(
    ' ',
  );
const CONDITIONS = [
  { name: 'quiet', noise: null },
  { name: 'exercise_bike 12 dB', noise: 'exercise_bike' },
  { name: 'pink_noise 12 dB', noise: 'pink_noise' },
  { name: 'running_tap 12 dB', noise: 'running_tap' },
] as const;
const SNR = 12;
const SEED = 7;
const WEIGHTS = [0, 100, 200, 300, 400, 500, 600, 800];
const ANYTHING = { filler: 0, rival: 0 };

const ABOUT = {
  madeBy: 'npm run calibrate:enrolment',
  recordings: `CMU AN4: words cut out of what each person said, ${VOCABULARY.length} of them as commands (the first time is the sample, later times from other recordings are said), others as other speech; quiet, and three noises at ${SNR} dB; thresholds of high risk`,
  split: SPLIT_RULE,
  rule: 'fewest wrong and falsely accepted, then most obeyed, then the smallest weight',
};

const rowSchema = z.object({ wav: z.string(), text: z.string(), speaker: z.string() });

interface Heard {
  readonly condition: string;
  readonly said: string | null;
  readonly found: ReturnType<EnrolledMeter['measure']>;
}

const sounds = new Map<string, Float32Array>();
/** `file` is named from the folder of recorded speech. */
function recorded(file: string): Float32Array {
  const known = sounds.get(file) ?? readSound(join(SHARED, 'speech', file));
  sounds.set(file, known);
  return known;
}

function earOf(set: SpeakerSet): SpeakerScorer | null {
  const samples = set.templates.map((word) => {
    const utterance = onlyUtterance(withRoom(soundOf(word, recorded(`an4/${word.wav}`))));
    return { words: word.word, features: utterance === null ? new Float32Array(0) : featuresOf(utterance) };
  });
  return templateScorerOf(samples);
}

/** Everything that a speaker says, in each condition. `seed` counts what was said before, over all speakers. */
function hearAll(meter: EnrolledMeter, set: SpeakerSet, seed: number): readonly Heard[] {
  const ear = earOf(set);
  const said = (words: readonly CutWord[], isCommand: boolean) => words.map((word) => ({ word, isCommand }));
  return [...said(set.tests, true), ...said(set.others, false)].flatMap(({ word, isCommand }, index) =>
    CONDITIONS.map(({ name, noise }): Heard => {
      const make = (): Float32Array => {
        const background = noise === null ? null : recorded(`noise/${noise}.wav`);
        const speech = soundOf(word, recorded(`an4/${word.wav}`));
        return soundIn({ noise: background, snr: SNR }, speech, SEED * 100_003 + seed + index + 1);
      };
      const found = meter.measure(`${name} ${word.wav} ${word.place}`, make, ear);
      return { condition: name, said: isCommand ? word.word : null, found };
    }),
  );
}

/** What is obeyed where the scores count for so much. */
function obeyedWith(found: Heard['found'], weight: number): string | null {
  if (found === null || found.needed === null) return null;
  const support = Math.max(-SUPPORT_MAX, Math.min(SUPPORT_MAX, weight * found.score));
  return support >= found.needed ? found.phrase : null;
}

function countsOf(heard: readonly Heard[], weight: number): Record<string, Counts> {
  return Object.fromEntries(
    CONDITIONS.map(({ name }) => {
      const trials = heard
        .filter(({ condition }) => condition === name)
        .map(({ said, found }): Trial => ({ said, obeyed: () => obeyedWith(found, weight) }));
      return [name, countTrials(trials, ANYTHING)];
    }),
  );
}

function chosenOf(heard: readonly Heard[]): number {
  const ranked = WEIGHTS.map((weight) => {
    const all = Object.values(countsOf(heard, weight));
    const sum = (of: (counts: Counts) => number): number => all.reduce((total, counts) => total + of(counts), 0);
    return { weight, errors: sum((one) => one.wrong + one.falselyAccepted), obeyed: sum((one) => one.obeyed) };
  });
  ranked.sort((a, b) => a.errors - b.errors || b.obeyed - a.obeyed || a.weight - b.weight);
  return ranked[0]?.weight ?? 0;
}

function show(heard: readonly Heard[]): void {
  for (const weight of [0, TEMPLATE_WEIGHT]) {
    console.log(weight === 0 ? 'Without samples:' : `With samples, weight ${weight}:`);
    for (const [condition, counts] of Object.entries(countsOf(heard, weight))) {
      const { commands, obeyed, wrong, others, falselyAccepted } = counts;
      const [low, high] = shareOf(obeyed, commands).interval.map((end) => (100 * end).toFixed(1));
      console.log(
        `${condition}: ${obeyed} of ${commands} obeyed (${low} to ${high} %), ${wrong} wrong, ${falselyAccepted} of ${others} others taken`,
      );
    }
  }
}

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      out: { type: 'string', default: join(ROOT, 'src/speech/web-speech/rescoring/weight.json') },
      cache: { type: 'string', default: join(ROOT, '.stowcall/calibrate-enrolment.json') },
      date: { type: 'string', default: new Date().toISOString().slice(0, 10) },
      first: { type: 'string', default: '1000' },
      'held-out': { type: 'boolean', default: false },
    },
  });
  const rows = readJsonRows(join(SHARED, 'speech/an4/utterances.jsonl'), rowSchema, '"wav", "text" and "speaker"');
  const { engine, modelKind } = await openNodeEngine(ROOT);
  if (modelKind !== '16k') throw new Error('The 16 kHz model is not here: run "npm start" once, which fetches it.');
  const words = rows.flatMap((row, index) =>
    wordsOf(engine, { recording: row, index, sound: recorded(`an4/${row.wav}`) }),
  );
  const grammar = parseJsgf(`#JSGF V1.0; grammar words; public <word> = ${VOCABULARY.join(' | ')};`);
  const automaton = grammar.ok ? automatonOf([grammar.value]) : grammar;
  if (!automaton.ok) throw new Error(automaton.detail);
  const entries = [
    'src/speech/web-speech/calibration/enrolled-meter.ts',
    'src/speech/web-speech/calibration/cut-words.ts',
    ...SEARCHERS,
  ].map((file) => join(ROOT, file));
  const more = [VOCABULARY, SNR, SEED, THRESHOLDS.high];
  const of = fingerprintOf({ root: ROOT, entries, data: searchedData(ROOT, SHARED), more });
  const meter = new EnrolledMeter({ engine, automaton: automaton.value, cache: values.cache, of });
  const heldOut = heldOutOf(rows.map(({ speaker }) => speaker));
  const heard: Heard[] = [];
  let [seed, speakers] = [0, 0];
  for (const set of speakerSets(words, VOCABULARY)) {
    if (heldOut.has(set.speaker) === values['held-out'] && speakers < Number(values.first)) {
      heard.push(...hearAll(meter, set, seed));
      meter.save();
      speakers += 1;
      console.error(`${speakers} speakers`);
    }
    seed += set.tests.length + set.others.length;
  }
  engine.dispose();
  if (values['held-out']) return show(heard);
  const weight = chosenOf(heard);
  const counts = { without: countsOf(heard, 0), with: countsOf(heard, weight) };
  const style = await resolveConfig(values.out);
  const text = JSON.stringify({ ...ABOUT, date: values.date, speakers, weight, counts });
  writeFileSync(values.out, await format(text, { ...style, parser: 'json' }));
  console.log(JSON.stringify({ weight, counts }));
}

await runMain(main);
