/** Turns text into sound with the embedded flite engine; the same code serves the page's worker and Node. */
import { ConsoleStdout, File, OpenFile, PreopenDirectory, WASI } from '@bjorn3/browser_wasi_shim';
import { ok, refused } from '@stowcall/grammar';
import type { Result } from '@stowcall/grammar';
import type { Sound } from './flite-wav';
import { parseWav } from './flite-wav';

/** The 16 kHz voices inside the engine. An unknown name would silently become its 8 kHz voice, so the list is closed. */
export const FLITE_VOICES = ['rms', 'slt', 'awb', 'kal16'] as const;
export type FliteVoice = (typeof FLITE_VOICES)[number];

export interface FliteRequest {
  readonly voice: FliteVoice;
  readonly text: string;
  /** How much longer than the voice was made the speech lasts: 1 = as made, 2 = half as fast. */
  readonly stretch: number;
  /** Mean pitch in Hz; left out: as the voice was made. */
  readonly pitchHz?: number;
}

export type FliteFailure = 'nothing-to-say' | 'engine-failed';

const OUTPUT = 'out.wav';

/**
 * Speaks `request.text` into memory. A new engine instance is made for each call: it costs a few milliseconds and
 * leaves no state behind, so the same text always gives the same samples.
 */
export async function synthesize(
  module: WebAssembly.Module,
  request: FliteRequest,
): Promise<Result<Sound, FliteFailure>> {
  const text = plainText(request.text);
  if (!/[a-z0-9]/i.test(text)) return refused('nothing-to-say', 'There are no words to say in this text.');
  const files = new Map();
  const complaints: string[] = [];
  const pitch = request.pitchHz === undefined ? [] : ['--setf', `int_f0_target_mean=${request.pitchHz}`];
  const stretch = ['--setf', `duration_stretch=${request.stretch}`];
  const wasi = new WASI(
    ['flite', '-voice', request.voice, ...stretch, ...pitch, '-t', text, '-o', OUTPUT],
    [],
    [
      new OpenFile(new File([])),
      ConsoleStdout.lineBuffered(() => undefined),
      ConsoleStdout.lineBuffered((line) => complaints.push(line)),
      new PreopenDirectory('.', files),
    ],
    { debug: false },
  );
  try {
    const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi.wasiImport });
    const code = wasi.start(instance as unknown as Parameters<WASI['start']>[0]);
    if (code !== 0) return failed(`code ${code}: ${complaints.join(' ')}`);
  } catch (error) {
    return failed(error instanceof Error ? error.message : String(error));
  }
  const written: unknown = files.get(OUTPUT);
  if (!(written instanceof File)) return failed('no sound was written');
  const sound = parseWav(written.data);
  return sound.ok ? ok(sound.value) : failed(sound.detail);
}

function failed(why: string) {
  return refused('engine-failed', `The voice engine could not speak (${why}). Read the screen instead.`);
}

/** Signs that change a value: to drop one would say another value. */
const SIGNS: readonly (readonly [RegExp, string])[] = [
  [/(?<=\d)(?=[\u00bc-\u00be\u2150-\u215e])/g, ' '],
  [/\u00b1/g, ' plus or minus '],
  [/\u00d7/g, ' by '],
  [/\u00b0/g, ' degrees '],
  [/\u2212/g, '-'],
  [/(?<=\d)\s*\u2013\s*(?=\d)/g, ' to '],
];

/**
 * The engine knows ASCII alone and drops other bytes, so typographic characters become plain ones first. It reads
 * `1 1/4` as "one and one fourth", which is why a fraction sign is set apart from the number before it.
 */
export function plainText(text: string): string {
  return SIGNS.reduce((plain, [sign, words]) => plain.replace(sign, words), text)
    .normalize('NFKD')
    .replace(/\u2044/g, '/')
    .replace(/\p{M}/gu, '')
    .replace(/[\u2018\u2019]/g, "'")
    .replace(/[\u201c\u201d]/g, '"')
    .replace(/\s*[\u2013\u2014]\s*/g, ', ')
    .replace(/[^\x20-\x7e]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}
