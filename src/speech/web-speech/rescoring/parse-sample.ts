/** Whether something is a voice sample that can be kept and compared; what comes from a disk or an engine may be none. */
import { ok, refused } from '@stowcall/grammar';
import type { Result } from '@stowcall/grammar';
import { SAMPLE_WIDTH, type VoiceSample } from './voice-sample';

/** In characters; the longest command has about half of it. */
export const WORDS_MAX = 60;
/** 5 s. Nobody says a command for longer, and a row of it is still too short for the browser to put it in a file. */
export const FRAMES_MAX = 500;

/** The sample, if it is whole: words, and between one and `FRAMES_MAX` frames of finite numbers. */
export function parseVoiceSample(value: unknown): Result<VoiceSample, 'not-a-sample'> {
  if (typeof value !== 'object' || value === null) return none('it is no record');
  const { words, features } = value as { readonly words?: unknown; readonly features?: unknown };
  if (typeof words !== 'string' || words.trim() === '' || words.length > WORDS_MAX) return none('it names no words');
  if (!(features instanceof Float32Array)) return none('it has no features');
  const frames = features.length / SAMPLE_WIDTH;
  if (!Number.isInteger(frames) || frames < 1) return none('its frames are not whole');
  if (frames > FRAMES_MAX) return none('it is too long');
  if (!features.every(Number.isFinite)) return none('it holds something that is no number');
  return ok({ words, features });
}

function none(why: string): Result<never, 'not-a-sample'> {
  return refused('not-a-sample', `This is no voice sample: ${why}. Read the line again.`);
}
