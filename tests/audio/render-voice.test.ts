/** The test voices: each gives sound, and the same sound each time. */
import { describe, expect, it } from 'vitest';
import { FLITE_VOICES } from '@stowcall/web-speech/flite';
import { makeWav, parseWav, renderVoice, SAMPLE_RATE } from './render-voice';

const PHRASE = 'Measured three seven inches.';
const seconds = (samples: Float32Array) => samples.length / SAMPLE_RATE;
const loudness = (samples: Float32Array) => Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length);

describe('voices of the tests', () => {
  it.each(FLITE_VOICES)('%s speaks for a plausible time and aloud', async (voice) => {
    const { samples, sampleRate } = await renderVoice(voice, PHRASE);
    expect(sampleRate).toBe(16_000);
    // Seven syllables: between two and eight a second, with silence around them.
    expect(seconds(samples)).toBeGreaterThan(1);
    expect(seconds(samples)).toBeLessThan(3.5);
    expect(loudness(samples)).toBeGreaterThan(0.02);
  });

  it.each(FLITE_VOICES)('%s says the same text with the same bytes', async (voice) => {
    const first = await renderVoice(voice, 'Stage complete.');
    const second = await renderVoice(voice, 'Stage complete.');
    expect(Buffer.from(second.samples.buffer).equals(Buffer.from(first.samples.buffer))).toBe(true);
  });

  it('voices differ from one another', async () => {
    const sounds = await Promise.all(FLITE_VOICES.map((voice) => renderVoice(voice, 'Affirm.')));
    const bytes = new Set(sounds.map(({ samples }) => Buffer.from(samples.buffer).toString('base64')));
    expect(bytes.size).toBe(FLITE_VOICES.length);
  });

  it('stretch slows the speech down', async () => {
    const [plain, slow] = await Promise.all([renderVoice('slt', PHRASE), renderVoice('slt', PHRASE, { stretch: 1.5 })]);
    expect(slow.samples.length / plain.samples.length).toBeCloseTo(1.5, 1);
  });

  it('text without words is an error and not a silent file', async () => {
    await expect(renderVoice('slt', ' ... ')).rejects.toThrow('no words');
  });
});

describe('WAVE files', () => {
  it('come back as they were written, to one step of 16 bits', async () => {
    const { samples } = await renderVoice('awb', 'Say again.');
    const back = parseWav(makeWav(samples, SAMPLE_RATE));
    expect(back.sampleRate).toBe(SAMPLE_RATE);
    expect(back.samples).toEqual(samples);
  });

  it('two channels become their mean, and unknown chunks are passed over', () => {
    const mono = makeWav(new Float32Array([0.5, -0.25, 0.25, 0.75]), 8000);
    const bytes = new Uint8Array(mono.length + 10);
    bytes.set(mono.subarray(0, 36));
    new DataView(bytes.buffer).setUint16(22, 2, true);
    bytes.set([0x4c, 0x49, 0x53, 0x54, 1, 0, 0, 0, 7, 0], 36); // a LIST chunk of one byte, padded to two
    bytes.set(mono.subarray(36), 46);
    expect([...parseWav(bytes).samples]).toEqual([0.125, 0.5]);
  });

  it.each([
    ['nothing', new Uint8Array()],
    ['text', new TextEncoder().encode('RIFF....WAVY and more')],
    ['a file cut short', makeWav(new Float32Array(100), 16_000).subarray(0, 150)],
    ['a file without samples', makeWav(new Float32Array(0), 16_000).subarray(0, 36)],
  ])('%s is refused', (_, bytes) => {
    expect(() => parseWav(bytes)).toThrow('WAVE');
  });

  it('8-bit sound is refused rather than read as noise', () => {
    const bytes = makeWav(new Float32Array(8), 16_000);
    new DataView(bytes.buffer).setUint16(34, 8, true);
    expect(() => parseWav(bytes)).toThrow('16-bit');
  });
});
