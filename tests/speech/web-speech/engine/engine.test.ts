/** The compiled engine itself, with the model that its own package carries. */
import createModule from 'soundswallower';
import { resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { renderVoice } from '../../../audio/render-voice';
import { automatonOf } from '../../../../src/speech/web-speech/engine/automaton';
import type { RecognitionEngine } from '../../../../src/speech/web-speech/engine/engine';
import { createEngine } from '../../../../src/speech/web-speech/engine/engine';
import { parseJsgf } from '../../../../src/speech/grammar/jsgf/parse-jsgf';
import type { FillerCosts } from '../../../../src/speech/web-speech/engine/network';
import { networkOf } from '../../../../src/speech/web-speech/engine/network';

const ROOT = resolve(import.meta.dirname, '../../../..');
const OPTIONS = {
  createModule: (settings: Readonly<Record<string, unknown>>) => createModule(settings),
  wasm: null,
  model: `${ROOT}/node_modules/soundswallower/model/en-us`,
  pronunciations: [['stows', 'S T OW Z']] as const,
};

function network(phrases: string, costs: FillerCosts | null = null) {
  const grammar = parseJsgf(`#JSGF V1.0; grammar test; public <a> = ${phrases};`);
  if (!grammar.ok) throw new Error(grammar.detail);
  const automaton = automatonOf([grammar.value]);
  if (!automaton.ok) throw new Error(automaton.detail);
  return networkOf(automaton.value, costs);
}

describe('the engine', () => {
  let engine: RecognitionEngine;
  let standBy: Float32Array;
  let talk: Float32Array;
  beforeAll(async () => {
    const made = await createEngine(OPTIONS);
    if (!made.ok) throw new Error(made.detail);
    engine = made.value;
    standBy = (await renderVoice('slt', 'Stand by.')).samples;
    talk = (await renderVoice('slt', 'The inspector is at the other table.')).samples;
  });
  afterAll(() => engine.dispose());

  it('hears nothing before it has a network', () => {
    expect(engine.decode(standBy)).toBeNull();
  });

  it('finds the phrase', () => {
    expect(engine.use(network('stand by | say again')).ok).toBe(true);
    expect(engine.decode(standBy)).toMatchObject({ words: ['stand', 'by'], other: false });
  });

  it('names a word that it cannot pronounce, and hears nothing until it has another network', () => {
    const refusal = engine.use(network('stand by | flumphet again'));
    expect(refusal).toMatchObject({ ok: false, reason: 'unknown-word' });
    expect(refusal.ok ? '' : refusal.detail).toContain('"flumphet"');
    expect(engine.decode(standBy)).toBeNull();
  });

  it('knows the words that were added', () => {
    expect(engine.use(network('five stows')).ok).toBe(true);
  });

  // As a weight in single precision, e^-150 would be nought and the filler gone; costs stay whole logarithms.
  it.each([0, 60, 150])('other speech finds the filler model at a cost of %d', (cost) => {
    engine.use(network('stand by | say again', { start: cost, after: cost, phone: 0 }));
    expect(engine.decode(talk)?.other).toBe(true);
  });

  it('the same sound gives the same answer, whatever was heard before it', () => {
    engine.use(network('stand by | say again', { start: 60, after: 100, phone: 1 }));
    const first = engine.decode(standBy);
    const hiss = Float32Array.from({ length: 32_000 }, (_, at) => 0.5 * Math.sin(at * at));
    engine.decode(hiss);
    engine.decode(talk);
    expect(engine.decode(standBy)).toEqual(first);
  });

  it('takes sound that is too short for a frame, and no sound at all', () => {
    expect(engine.decode(new Float32Array(100))).toBeNull();
    expect(engine.decode(new Float32Array(0))).toBeNull();
  });
});

describe('starting', () => {
  it('without a model is refused as that', async () => {
    expect(await createEngine({ ...OPTIONS, model: '/nowhere' })).toMatchObject({ ok: false, reason: 'model' });
  });

  it('without an engine is refused as that', async () => {
    const createModule = () => Promise.reject(new Error('no WebAssembly'));
    const made = await createEngine({ ...OPTIONS, createModule });
    expect(made).toMatchObject({ ok: false, reason: 'engine' });
    expect(made.ok ? '' : made.detail).toContain('no WebAssembly');
  });
});
