/** Lets the ear learn people's voices from recordings of the phrases, as enrolment does in the kiosk. */
import { dirname, join } from 'node:path';
import { z } from 'zod';
import { normalised } from '../../../src/voice/phrases/phrase-for';
import type { VoiceSample } from '@stowcall/web-speech/core';
import { fixedPhrases, listenFor } from '@stowcall/web-speech/core';
import type { NodeListener } from '@stowcall/web-speech/calibration/node-listener';
import { withRoom } from '@stowcall/web-speech/calibration/node-listener';
import { readJsonRows } from '@stowcall/web-speech/calibration/json-rows';

const rowSchema = z.object({ wav: z.string(), text: z.string(), speaker: z.string() });

/**
 * Samples of each speaker, from the rows of a JSONL file; `read` gives the sound of a file. Where the ear does not
 * understand a recording as its text there is no sample of it, as in the kiosk.
 */
export function readEnrolment(
  file: string,
  listener: NodeListener,
  read: (wav: string) => Float32Array,
): ReadonlyMap<string, readonly VoiceSample[]> {
  const bySpeaker = new Map<string, VoiceSample[]>();
  for (const { wav, text, speaker } of readJsonRows(file, rowSchema, '"wav", "text" and "speaker"')) {
    const words = normalised(text);
    const listened = listenFor({ wanted: [fixedPhrases([words])], isSampled: true });
    if (!listened.ok) throw new Error(listened.detail);
    const [features] = listener.decide(listened.value, withRoom(read(join(dirname(file), wav)))).features;
    const known = bySpeaker.get(speaker) ?? [];
    if (features !== undefined) known.push({ words, features });
    bySpeaker.set(speaker, known);
  }
  return bySpeaker;
}
