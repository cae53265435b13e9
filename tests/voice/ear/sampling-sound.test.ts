/**
 * Samples of real sound by the real engine: the words that were asked for are described, other words are not. Needs the
 * 16 kHz acoustic model (`node src/tools/fetch-model.mjs`); skipped without it.
 */
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { listenForTexts } from '@stowcall/web-speech/core';
import { openNodeListener, withRoom } from '@stowcall/web-speech/calibration/node-listener';
import { renderVoice } from '../../audio/render-voice';

const ROOT = resolve(import.meta.dirname, '../../..');
const isModelThere = existsSync(join(ROOT, '.stowcall/model/en-us-16k/mdef'));

describe.skipIf(!isModelThere)('a sample of real sound', () => {
  it('is taken of the words that were asked for and of no others', async () => {
    const listener = await openNodeListener(ROOT);
    const sample = async (text: string) => {
      const wanted = ['#JSGF V1.0; grammar sample; public <words> = stage complete;'];
      const { samples } = await renderVoice('slt', text);
      const listened = listenForTexts({ wanted, isSampled: true });
      if (!listened.ok) throw new Error(listened.detail);
      return listener.decide(listened.value, withRoom(samples));
    };
    const right = await sample('Stage complete.');
    expect(right.verdicts).toEqual([{ kind: 'heard', words: 'stage complete' }]);
    const frames = right.features.map(({ length }) => length / 13);
    expect(frames).toHaveLength(1);
    // About a second: 13 numbers for each 10 ms, and nothing of the quiet around it.
    expect(frames[0]).toBeGreaterThan(50);
    expect(frames[0]).toBeLessThan(160);
    for (const text of ['Say again.', 'Stage.', 'The stage is complete now.']) {
      expect([text, (await sample(text)).features]).toEqual([text, []]);
    }
    listener.dispose();
  }, 60_000);
});
