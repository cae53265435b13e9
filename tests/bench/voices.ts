/**
 * How well the ear hears the kiosk's own commands in made voices that no calibration has heard, in quiet and in noise:
 * `npm run bench:voices -- [--voices NAME,...] [--conditions quiet,pink_noise@12/3,...] [--seed N] [--json OUT]`; "/3"
 * says each third phrase, others in each voice and condition. Voices whose program is not installed are skipped and
 * named. Noise needs the recordings beside the project (`../shared`, or `STOWCALL_SHARED`).
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { KioskEar } from '../audio/kiosk-ear';
import { openKioskEar } from '../audio/kiosk-ear';
import { readSound } from '@stowcall/web-speech/calibration/read-sound';
import type { Counted, Outcome } from './speech/tally';
import { countOutcomes } from './speech/tally';
import type { Condition } from './voices/conditions';
import { parseCondition } from './voices/conditions';
import { NOISES, soundIn } from '@stowcall/web-speech/calibration/room';
import { isFestivalThere } from './voices/festival';
import { decisionOn } from './voices/decision';
import type { MadeVoice } from './voices/made-voices';
import { MADE_VOICES } from './voices/made-voices';
import { SAYINGS, TALK } from './voices/sayings';
import { speakAll } from './voices/speak';
import { runMain } from '@stowcall/web-speech/calibration/run-main';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const SHARED = process.env['STOWCALL_SHARED'] ?? join(ROOT, '../shared');
const CONDITIONS = ['quiet', ...[20, 12].flatMap((snr) => NOISES.map((noise) => `${noise}@${snr}`))];

/** What came of one voice in one condition. */
export interface VoiceCount extends Pick<Counted, 'inGrammar' | 'other' | 'confusions'> {
  readonly voice: string;
  readonly condition: string;
}

export interface VoicesOptions {
  readonly voices: readonly MadeVoice[];
  readonly conditions: readonly Condition[];
  readonly seed: number;
}

/** Lets the ear hear all voices in all conditions; `onCount` is told each as it comes. */
export async function benchVoices(
  ear: KioskEar,
  { voices, conditions, seed }: VoicesOptions,
  onCount: (count: VoiceCount, outcomes: readonly Outcome[]) => void,
): Promise<void> {
  const all = [...SAYINGS, ...TALK];
  for (const [row, voice] of voices.entries()) {
    const sounds = await speakAll(
      voice,
      all.map(({ text }) => text),
    );
    for (const [column, condition] of conditions.entries()) {
      const outcomes = all.flatMap((saying, index): Outcome[] => {
        if ((index + row + column) % condition.every !== 0) return [];
        const sound = soundIn(condition, sounds.get(saying.text) ?? new Float32Array(0), seed * 100_003 + index);
        return [decisionOn(ear, saying, sound)];
      });
      const { inGrammar, other, confusions } = countOutcomes(outcomes);
      onCount({ voice: voice.name, condition: condition.name, inGrammar, other, confusions }, outcomes);
    }
  }
}

/** The voices of these names that can speak here; says which cannot. */
function voicesNamed(names: readonly string[]): readonly MadeVoice[] {
  const wanted = MADE_VOICES.filter(({ name }) => names.includes(name));
  if (wanted.length !== names.length)
    throw new Error(`the voices are ${MADE_VOICES.map(({ name }) => name).join(', ')}`);
  return wanted.filter((made) => {
    const isThere = made.engine === 'flite' || isFestivalThere(made.voice);
    if (!isThere) console.error(`${made.name}: festival has no "${made.voice}" here; skipped`);
    return isThere;
  });
}

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      voices: { type: 'string', default: MADE_VOICES.map(({ name }) => name).join(',') },
      conditions: { type: 'string', default: CONDITIONS.join(',') },
      seed: { type: 'string', default: '1' },
      json: { type: 'string' },
    },
  });
  const ear = await openKioskEar(ROOT);
  const conditions = values.conditions
    .split(',')
    .map((text) => parseCondition(text, (noise) => readSound(join(SHARED, 'speech/noise', `${noise}.wav`))));
  const counts: VoiceCount[] = [];
  const said: Outcome[] = [];
  const voices = voicesNamed(values.voices.split(','));
  const options = { voices, conditions, seed: Number(values.seed) };
  const write = (): void => {
    const sums = conditions.map(({ name }) => {
      const of = said.filter(({ wav }) => wav.endsWith(` ${name}`));
      const { inGrammar, other } = countOutcomes(of);
      return { condition: name, inGrammar, other };
    });
    if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify({ sums, counts, said }, null, 2)}\n`);
  };
  await benchVoices(ear, options, (count, outcomes) => {
    counts.push(count);
    said.push(...outcomes.map((one) => ({ ...one, wav: `${count.voice} ${count.condition}` })));
    const { n, obeyed, asked, refused, wrong } = count.inGrammar;
    const taken = `${count.other.falselyAccepted} of ${count.other.n} taken`;
    console.log(
      `${count.voice} ${count.condition}: ${n}: ${obeyed} obeyed, ${asked} asked, ${refused} refused, ${wrong} wrong; ${taken}`,
    );
    write();
  });
  ear.dispose();
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await runMain(main);
