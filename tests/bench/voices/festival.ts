/** Lets Debian's festival speak many sentences in one go. The program is a guest of the bench: nothing else needs it. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SAMPLE_RATE } from '@stowcall/web-speech/core';
import { parseWav } from '@stowcall/web-speech/flite';
import { resample } from '../speech/resample';
import type { FestivalVoice, MadeVoice } from './made-voices';

const VOICE_FOLDERS = ['/usr/share/festival/voices/english', '/usr/share/festival/voices/us'];

export function isFestivalThere(voice: FestivalVoice): boolean {
  return VOICE_FOLDERS.some((folder) => existsSync(join(folder, voice)));
}

/** Each text as 16 kHz sound. Throws where festival does not speak it. */
export function festivalSays(
  made: Extract<MadeVoice, { engine: 'festival' }>,
  texts: readonly string[],
): readonly Float32Array[] {
  const folder = mkdtempSync(join(tmpdir(), 'stowcall-festival-'));
  try {
    const script = join(folder, 'say.scm');
    writeFileSync(script, [...settings(made), ...texts.map(sentence)].join('\n'));
    execFileSync('festival', ['-b', script], { cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] });
    return texts.map((text, index) => {
      const sound = parseWav(readFileSync(join(folder, `${index}.wav`)));
      if (!sound.ok) throw new Error(`festival, "${text}": ${sound.detail}`);
      return resample(sound.value.samples, sound.value.sampleRate, SAMPLE_RATE);
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function settings({ voice, stretch, pitchHz }: MadeVoice): readonly string[] {
  const chosen = `(voice_${voice})`;
  // The statistical voice knows neither of the two: its engine takes a rate.
  if (voice === 'cmu_us_slt_arctic_hts') {
    return [chosen, `(set! hts_engine_params (append hts_engine_params '(("-r" ${1 / stretch}))))`];
  }
  const target = `((target_f0_mean ${pitchHz ?? 0}) (target_f0_std 14) (model_f0_mean 170) (model_f0_std 34))`;
  const pitch = pitchHz === null ? [] : [`(set! int_lr_params '${target})`];
  return [chosen, `(Parameter.set 'Duration_Stretch ${stretch})`, ...pitch];
}

function sentence(text: string, index: number): string {
  if (!/^[a-z ]+$/i.test(text)) throw new Error(`only plain words are given to festival: "${text}"`);
  return `(utt.save.wave (utt.synth (Utterance Text "${text}")) "${index}.wav" 'riff)`;
}
