/**
 * How well numbers are heard that people recorded, and what is left of wrong ones after the read-back, as JSON:
 * `npm run bench:numbers -- [--words DIR] [--conditions quiet,pink_noise@12/8,...] [--each N] [--seed N]
 * [--parts answers,composed,recorded] [--json OUT]`. DIR (or `STOWCALL_WORDS`) holds the folders `digits` and `phonetic` of Debian's
 * `asterisk-core-sounds-en-wav`, unpacked outside the project; `--each` quantities of every form are put together from
 * them; "/8" takes each eighth recording of AN4. What is absent is named and skipped.
 */
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { KioskEar } from '../audio/kiosk-ear';
import { openNodeListener } from '@stowcall/web-speech/calibration/node-listener';
import { openKioskEar } from '../audio/kiosk-ear';
import { quantitiesOf, chances } from './numbers/quantities';
import { wrongAfterReadBack } from './numbers/read-back';
import { readRecordedWords, spokenTogether } from './numbers/recorded-words';
import { numberStrings } from './numbers/strings';
import { BENCH_VOCABULARIES } from './recogniser';
import type { Spoken } from './speech';
import { readSound } from '@stowcall/web-speech/calibration/read-sound';
import { decisionOf, readUtterances } from './speech';
import type { Counted, Outcome } from './speech/tally';
import { countOutcomes } from './speech/tally';
import type { Condition } from './voices/conditions';
import { parseCondition } from './voices/conditions';
import { NOISES, soundIn } from '@stowcall/web-speech/calibration/room';
import { decisionOn } from './voices/decision';
import { isFestivalThere } from './voices/festival';
import { MADE_VOICES } from './voices/made-voices';
import { speakAll } from './voices/speak';
import { runMain } from '@stowcall/web-speech/calibration/run-main';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const SHARED = process.env['STOWCALL_SHARED'] ?? join(ROOT, '../shared');
const CONDITIONS = ['quiet', ...NOISES.map((noise) => `${noise}@12`)];
const { measuring = { commands: [], nouns: [] }, readBack = { commands: [], nouns: [] } } = BENCH_VOCABULARIES;

/** One kind of sound in one condition. */
interface Part extends Counted {
  readonly what: string;
  readonly condition: string;
  readonly outcomes: readonly Outcome[];
}

interface Options {
  readonly conditions: readonly Condition[];
  readonly each: number;
  readonly seed: number;
  readonly onPart: (what: string, condition: string, outcomes: readonly Outcome[]) => void;
}

/**
 * Quantities put together from recorded words, as the kiosk listens for a length, but with the 8 kHz model: above 4 kHz
 * the recordings hold nothing, and the other model misses every "s" and "f" in them.
 */
async function composed(folder: string, { conditions, each, seed, onPart }: Options): Promise<void> {
  const ear = await openKioskEar(ROOT, '8k');
  const words = readRecordedWords(folder);
  const chance = chances(seed);
  const said = quantitiesOf(each, seed).map(({ form, words: of }) => ({
    form,
    vocabulary: measuring,
    text: of.join(' '),
    samples: spokenTogether(of, words, chance),
  }));
  for (const condition of conditions) {
    const outcomes = said.map(({ form, samples, ...saying }, index) => ({
      ...decisionOn(ear, saying, soundIn(condition, samples, seed * 100_003 + index)),
      wav: form,
    }));
    onPart('composed', condition.name, outcomes);
  }
  ear.dispose();
}

/** Recorded number strings: what the kiosk makes of them where a length is wanted, and a grammar of strings. */
async function recorded(ear: KioskEar, { conditions, seed, onPart }: Options): Promise<void> {
  const strings = numberStrings(ROOT);
  const isNumber = ({ text }: Spoken): boolean => strings.meaningOf(text) !== null;
  const rows = readUtterances(join(SHARED, 'speech/an4/utterances.jsonl')).filter(isNumber);
  const listener = await openNodeListener(ROOT);
  for (const [column, condition] of conditions.entries()) {
    const of = rows.filter((_, index) => (index + column) % condition.every === 0);
    const sounds = of.map((row, index) => ({ ...row, sound: soundIn(condition, row.samples, seed * 100_003 + index) }));
    const asLengths = sounds.map(({ wav, text, sound }) => ({
      ...decisionOn(ear, { vocabulary: measuring, text }, sound),
      wav,
    }));
    onPart('AN4 where a length is wanted', condition.name, asLengths);
    const asStrings = sounds.map(({ wav, text, sound }): Outcome => {
      const { verdicts } = listener.decide(strings.listened, sound);
      return { wav, text, wanted: strings.meaningOf(text), ...decisionOf(verdicts, strings) };
    });
    onPart('AN4 as number strings', condition.name, asStrings);
  }
  listener.dispose();
}

/** The answer to a value that was said back, in made voices. */
async function answered(ear: KioskEar, { conditions, seed, onPart }: Options): Promise<void> {
  const voices = MADE_VOICES.filter((made) => made.engine === 'flite' || isFestivalThere(made.voice));
  const sounds = await Promise.all(voices.map((voice) => speakAll(voice, ['negative', 'affirm'])));
  for (const condition of conditions) {
    const outcomes = sounds.flatMap((sound, place) =>
      [...sound].map(([text, samples]) => {
        const heard = decisionOn(ear, { vocabulary: readBack, text }, soundIn(condition, samples, seed * 7919 + place));
        return { ...heard, wav: voices[place]?.name ?? '' };
      }),
    );
    onPart('answers', condition.name, outcomes);
  }
}

/** Shares after the read-back, for each kind of sound: all conditions together, and quiet alone. */
function afterReadBack(parts: readonly Part[]): Record<string, unknown> {
  const answers = parts.filter(({ what }) => what === 'answers').flatMap(({ outcomes }) => outcomes);
  const negatives = answers.filter(({ text }) => text === 'negative');
  const mistaken = negatives.filter(({ meaning }) => meaning !== null && meaning.includes('affirm')).length;
  const kinds = [...new Set(parts.map(({ what }) => what))].filter((what) => what !== 'answers');
  return Object.fromEntries(
    kinds.map((kind) => {
      const counts = parts.filter(({ what }) => what === kind).map(({ inGrammar, other }) => ({ inGrammar, other }));
      const wrong = counts.reduce((sum, { inGrammar, other }) => sum + inGrammar.wrong + other.falselyAccepted, 0);
      const said = counts.reduce((sum, { inGrammar, other }) => sum + inGrammar.n + other.n, 0);
      const of = { wrong, said, mistaken, negatives: negatives.length };
      return [kind, { ...of, ...wrongAfterReadBack(of) }];
    }),
  );
}

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      words: { type: 'string', default: process.env['STOWCALL_WORDS'] ?? '' },
      conditions: { type: 'string', default: CONDITIONS.join(',') },
      each: { type: 'string', default: '10' },
      seed: { type: 'string', default: '1' },
      parts: { type: 'string', default: 'answers,composed,recorded' },
      json: { type: 'string' },
    },
  });
  const read = (noise: string): Float32Array => readSound(join(SHARED, 'speech/noise', `${noise}.wav`));
  const parts: Part[] = [];
  const options: Options = {
    conditions: values.conditions.split(',').map((text) => parseCondition(text, read)),
    each: Number(values.each),
    seed: Number(values.seed),
    onPart: (what, condition, outcomes) => {
      const counted = countOutcomes(outcomes);
      const { n, obeyed, asked, refused, wrong } = counted.inGrammar;
      const taken = `${counted.other.falselyAccepted} of ${counted.other.n} others taken`;
      console.log(
        `${what}, ${condition}: ${n}: ${obeyed} obeyed, ${asked} asked, ${refused} refused, ${wrong} wrong; ${taken}`,
      );
      parts.push({ what, condition, ...counted, outcomes });
      const all = { afterReadBack: afterReadBack(parts), parts };
      if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify(all, null, 2)}\n`);
    },
  };
  const ear = await openKioskEar(ROOT);
  const wanted = values.parts.split(',');
  if (wanted.includes('answers')) await answered(ear, options);
  if (wanted.includes('composed')) {
    if (existsSync(join(values.words, 'digits'))) await composed(values.words, options);
    else console.error('No recorded words: name their folder with --words. Skipped.');
  }
  if (wanted.includes('recorded')) {
    if (existsSync(join(SHARED, 'speech/an4'))) await recorded(ear, options);
    else console.error('AN4 is not beside the project (../shared, or STOWCALL_SHARED). Skipped.');
  }
  ear.dispose();
  console.log(JSON.stringify(afterReadBack(parts), null, 2));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await runMain(main);
