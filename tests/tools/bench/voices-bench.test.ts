/** The benches of made voices and of recorded numbers: what is said, in which room, and how it is counted. */
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { chances, quantitiesOf } from '../../bench/numbers/quantities';
import { wrongAfterReadBack } from '../../bench/numbers/read-back';
import { RECORDED_WORDS, spokenTogether } from '../../bench/numbers/recorded-words';
import { numberStrings } from '../../bench/numbers/strings';
import { resample } from '../../bench/speech/resample';
import { soundIn } from '@stowcall/web-speech/calibration/room';
import { parseCondition } from '../../bench/voices/conditions';
import { MADE_VOICES } from '../../bench/voices/made-voices';
import { SAYINGS, TALK } from '../../bench/voices/sayings';
import { phraseBook } from '../../voice/phrases/book';

const book = phraseBook();
const tone = (hz: number, rate: number): Float32Array =>
  Float32Array.from({ length: rate }, (_, at) => Math.sin((2 * Math.PI * hz * at) / rate));

describe('what the made voices say', () => {
  it('is a command where it is said, and every command is among it', () => {
    const said = SAYINGS.map(({ vocabulary, text }) => [text, book.understand(vocabulary, text)] as const);
    for (const [text, understood] of said) expect([text, understood.kind]).toEqual([text, 'command']);
    const names = new Set(said.flatMap(([, one]) => (one.kind === 'command' ? [one.command.name] : [])));
    expect([...names].sort()).toEqual([...COMMAND_NAMES].sort());
  });

  it('is no command where it is talk', () => {
    for (const { vocabulary, text } of TALK)
      expect([text, book.understand(vocabulary, text).kind]).toEqual([text, 'none']);
  });

  it('comes in voices that each have a name of their own', () => {
    expect(new Set(MADE_VOICES.map(({ name }) => name)).size).toBe(MADE_VOICES.length);
  });
});

describe('a condition', () => {
  const noise = new Float32Array(80_000).fill(0.5);
  const read = (): Float32Array => noise;

  it.each([
    ['quiet', { name: 'quiet', noise: null, every: 1 }],
    ['quiet/4', { name: 'quiet', noise: null, every: 4 }],
    ['pink_noise@12', { name: 'pink_noise@12', noise, snr: 12, every: 1 }],
    ['running_tap@6.5/3', { name: 'running_tap@6.5', snr: 6.5, every: 3 }],
  ])('"%s" is read', (text, condition) => {
    expect(parseCondition(text, read)).toMatchObject(condition);
  });

  it.each(['loud', 'pink_noise', 'pink_noise@', 'pink_noise@12/0', 'pink_noise@12/', '@12', ''])(
    '"%s" is refused',
    (text) => {
      expect(() => parseCondition(text, read)).toThrow('no condition');
    },
  );

  it('lets the room sound before anybody speaks, 12 dB below the speech', () => {
    const sound = soundIn(parseCondition('pink_noise@12', read), new Float32Array(16_000).fill(0.8), 1);
    const [before = 0, during = 0, after = 0] = [16_000, 40_000, sound.length - 100].map((at) => sound[at]);
    // 0.8 over 12 dB.
    expect(before).toBeCloseTo(0.201, 3);
    expect(during).toBeCloseTo(1.001, 3);
    expect(after).toBeCloseTo(0.201, 3);
  });
});

describe('another sample rate', () => {
  it.each([
    [8_000, 16_000],
    [32_000, 16_000],
    [11_025, 16_000],
  ])('from %i to %i Hz keeps a tone of 1 kHz', (from, to) => {
    const made = resample(tone(1_000, from), from, to);
    expect(made.length).toBe(to);
    const wanted = tone(1_000, to);
    const apart = made.slice(100, -100).map((sample, at) => Math.abs(sample - (wanted[at + 100] ?? 0)));
    expect(Math.max(...apart)).toBeLessThan(0.01);
  });

  it('folds no tone back that the new rate cannot hold', () => {
    const made = resample(tone(11_000, 32_000), 32_000, 16_000);
    expect(Math.max(...made.slice(100, -100).map(Math.abs))).toBeLessThan(0.01);
  });
});

describe('numbers put together from recorded words', () => {
  const quantities = quantitiesOf(20, 3);

  it('are the same for the same seed and others for another', () => {
    expect(quantitiesOf(20, 3)).toEqual(quantities);
    expect(quantitiesOf(20, 4)).not.toEqual(quantities);
  });

  it('are lengths that the kiosk understands, of words that are recorded', () => {
    for (const { words } of quantities) {
      const text = words.join(' ');
      expect(words.filter((word) => !RECORDED_WORDS.includes(word))).toEqual([]);
      expect([text, book.understand({ commands: ['measured'], nouns: [] }, text).kind]).toEqual([text, 'command']);
    }
  });

  it('have short gaps between their words', () => {
    const word = new Float32Array(1_600).fill(1);
    const sounds = new Map([['one', word]]);
    const { length } = spokenTogether(['one', 'one', 'one'], sounds, chances(1));
    expect(length).toBeGreaterThan(3 * 1_600 + 2 * 320);
    expect(length).toBeLessThan(3 * 1_600 + 2 * 1_280);
    expect(() => spokenTogether(['two'], sounds, chances(1))).toThrow('no recording of "two"');
  });
});

describe('number strings', () => {
  const strings = numberStrings(resolve(import.meta.dirname, '../../..'));

  it.each([
    ['four oh three', 'fower zero tree'],
    ['fifty six oh five', 'fifty six zero fife'],
    ['nine four oh eight six', 'niner four zero eight six'],
  ])('"%s" means the same as "%s"', (one, other) => {
    expect(strings.meaningOf(one)).not.toBeNull();
    expect(strings.meaningOf(one)).toBe(strings.meaningOf(other));
  });

  it.each(['four two', 'two four', 'four two zero', 'forty two'])('"%s" is its own number alone', (text) => {
    const others = ['four two', 'two four', 'four two zero', 'forty two'].filter((other) => other !== text);
    for (const other of others) expect(strings.meaningOf(other)).not.toBe(strings.meaningOf(text));
  });

  it.each(['rubout six', 'stop', ''])('"%s" is none', (text) => {
    expect(strings.meaningOf(text)).toBeNull();
  });
});

describe('after the read-back', () => {
  it('both must go wrong', () => {
    // Worked by hand: 5 of 100 wrong (Wilson's upper end 11.18 %), 1 of 50 negatives taken for affirm (10.50 %).
    const left = wrongAfterReadBack({ wrong: 5, said: 100, mistaken: 1, negatives: 50 });
    expect(left.share).toBeCloseTo(0.05 * 0.02, 6);
    expect(left.upper).toBeCloseTo(0.1118 * 0.105, 4);
  });

  it('knows nothing of what was never tried', () => {
    expect(wrongAfterReadBack({ wrong: 0, said: 0, mistaken: 0, negatives: 0 }).upper).toBe(1);
  });
});
