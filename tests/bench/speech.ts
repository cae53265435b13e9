/**
 * How well the ear hears any utterances with any grammar, in quiet or in noise, as JSON:
 * `npm run bench:speech -- --utterances FILE.jsonl --grammar FILE.gram [--rule NAME] [--noise FILE.wav --snr DB]
 * [--seed N] [--held-out] [--enrol FILE.jsonl] [--json OUT]`, `--held-out` for the speakers alone that `npm run calibrate`
 * leaves out, `--enrol` for recordings (rows with "speaker") from which each speaker's voice is learnt first. The same
 * engine, endpointer and verdicts as in the page's worker.
 */
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { readSound } from '@stowcall/web-speech/calibration/read-sound';
import type { Verdict, VoiceSample } from '@stowcall/web-speech/core';
import { SAMPLE_RATE } from '@stowcall/web-speech/core';
import type { NodeListener } from '@stowcall/web-speech/calibration/node-listener';
import { openNodeListener, readingsOf } from '@stowcall/web-speech/calibration/node-listener';
import { readJsonRows } from '@stowcall/web-speech/calibration/json-rows';
import { percentile } from './append';
import { heldOutOf } from '@stowcall/web-speech/calibration/split';
import type { AnyGrammar } from './speech/any-grammar';
import { readAnyGrammar } from './speech/any-grammar';
import { readEnrolment } from './speech/enrolment';
import { soundIn } from '@stowcall/web-speech/calibration/room';
import type { Counted, Outcome } from './speech/tally';
import { countOutcomes } from './speech/tally';
import { runMain } from '@stowcall/web-speech/calibration/run-main';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const rowSchema = z.object({ wav: z.string(), text: z.string(), speaker: z.string().optional() });

export interface Spoken {
  readonly wav: string;
  readonly text: string;
  /** How its speaker says the phrases, where that was learnt. */
  readonly voice?: readonly VoiceSample[];
  readonly samples: Float32Array;
}

export interface SpeechBench extends Counted {
  readonly realTimeFactor: number;
  readonly latencyMs: { readonly p50: number; readonly p95: number };
  readonly utterances: readonly Pick<Outcome, 'wav' | 'heard' | 'meaning' | 'decision'>[];
}

/** Noise over every utterance; `seed` chooses the stretch of it, another for each utterance. */
export interface Noise {
  readonly samples: Float32Array;
  readonly snr: number;
  readonly seed: number;
}

/**
 * Rows of a JSONL file and the sounds that they name, which lie beside it; on wish only those of the speakers that no
 * calibration has heard. Throws with the line.
 */
export function readUtterances(
  file: string,
  which: 'all' | 'held-out' = 'all',
  enrolled: ReadonlyMap<string, readonly VoiceSample[]> = new Map(),
): readonly Spoken[] {
  const rows = readJsonRows(file, rowSchema, '"wav" and "text"');
  const heldOut = heldOutOf(rows.flatMap(({ speaker }) => (speaker === undefined ? [] : [speaker])));
  const wanted = rows.filter(({ speaker }) => which === 'all' || (speaker !== undefined && heldOut.has(speaker)));
  return wanted.map(({ wav, text, speaker = '' }) => {
    const voice = enrolled.get(speaker) ?? [];
    return { wav, text, voice, samples: readSound(join(dirname(file), wav)) };
  });
}

/** Lets the ear hear everything and counts. */
export function benchSpeech(
  listener: NodeListener,
  grammar: AnyGrammar,
  { spoken, noise }: { readonly spoken: readonly Spoken[]; readonly noise: Noise | null },
): SpeechBench {
  const times: number[] = [];
  let searched = 0;
  let seconds = 0;
  const outcomes = spoken.map(({ wav, text, samples, voice = [] }, index): Outcome => {
    listener.know(voice);
    const { samples: background = null, snr = 0, seed = 0 } = noise ?? {};
    const sound = soundIn({ noise: background, snr }, samples, seed * 100_003 + index);
    const decided = listener.decide(grammar.listened, sound);
    times.push(decided.msToDecision);
    searched += decided.searchMs;
    seconds += samples.length / SAMPLE_RATE;
    return { wav, text, wanted: grammar.meaningOf(text), ...decisionOf(decided.verdicts, grammar) };
  });
  return {
    ...countOutcomes(outcomes),
    realTimeFactor: searched / 1000 / seconds,
    latencyMs: { p50: percentile(times, 50), p95: percentile(times, 95) },
    utterances: outcomes.map(({ wav, heard, meaning, decision }) => ({ wav, heard, meaning, decision })),
  };
}

/** Of all the utterances in one sound: the first that is obeyed, else the first that is asked about. */
export function decisionOf(
  verdicts: readonly Verdict[],
  grammar: AnyGrammar,
): Pick<Outcome, 'heard' | 'meaning' | 'decision'> {
  const read = verdicts.map((verdict) => {
    const readings = readingsOf(verdict);
    const meanings = new Set(readings.map((words) => grammar.meaningOf(words)));
    const [heard = null] = readings;
    const [meaning = null] = meanings;
    if (heard === null || meaning === null) return { heard, meaning: null, decision: 'refused' as const };
    return meanings.size === 1
      ? { heard, meaning, decision: 'obeyed' as const }
      : { heard, meaning: null, decision: 'asked' as const };
  });
  return (
    read.find(({ decision }) => decision === 'obeyed') ??
    read.find(({ decision }) => decision === 'asked') ?? { heard: null, meaning: null, decision: 'refused' }
  );
}

async function main(): Promise<number> {
  const { values } = parseArgs({
    options: {
      utterances: { type: 'string' },
      grammar: { type: 'string' },
      rule: { type: 'string' },
      noise: { type: 'string' },
      snr: { type: 'string' },
      seed: { type: 'string', default: '1' },
      json: { type: 'string' },
      enrol: { type: 'string' },
      'held-out': { type: 'boolean', default: false },
    },
  });
  const isNoiseWhole = (values.noise === undefined) === (values.snr === undefined);
  if (values.utterances === undefined || values.grammar === undefined || !isNoiseWhole) {
    console.error(
      'Usage: bench:speech --utterances FILE.jsonl --grammar FILE.gram [--rule NAME] [--noise FILE.wav --snr DB] [--seed N] [--held-out] [--enrol FILE.jsonl] [--json OUT]',
    );
    return 2;
  }
  const grammar = readAnyGrammar(values.grammar, values.rule ?? null);
  const noise =
    values.noise === undefined
      ? null
      : { samples: readSound(values.noise), snr: Number(values.snr), seed: Number(values.seed) };
  const listener = await openNodeListener(ROOT);
  const enrolled = values.enrol === undefined ? new Map() : readEnrolment(values.enrol, listener, readSound);
  const spoken = readUtterances(values.utterances, values['held-out'] ? 'held-out' : 'all', enrolled);
  const figures = benchSpeech(listener, grammar, { spoken, noise });
  listener.dispose();
  const text = `${JSON.stringify(figures, null, 2)}\n`;
  if (values.json === undefined) process.stdout.write(text);
  else {
    writeFileSync(values.json, text);
    const { obeyed, asked, refused, wrong, n } = figures.inGrammar;
    console.log(`${n} in the grammar: ${obeyed} obeyed, ${asked} asked, ${refused} refused, ${wrong} wrong`);
    console.log(`${figures.other.n} others: ${figures.other.falselyAccepted} falsely accepted`);
  }
  return 0;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await runMain(main);
