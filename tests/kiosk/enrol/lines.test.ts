/** Which lines are read, how the reading goes on, and how long it waits. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { isVerdict, phrasesFor, phrasesToRead } from '../../../src/kiosk/enrol/phrases-to-read';
import { sampleInTime, SILENCE_MS } from '../../../src/kiosk/enrol/patient-sample';
import { voiceOwner } from '../../../src/kiosk/enrol/owner';
import {
  beginReading,
  heardLine,
  isEnough,
  isLeft,
  isRead,
  lineOf,
  LINES_MIN,
  missedLine,
  skipLine,
  type Reading,
} from '../../../src/kiosk/enrol/reading';
import { templateScorerOf, WORDS_MAX } from '@stowcall/web-speech/core';
import { SAMPLES_MAX } from '../../../src/voice/voice-sample-store';
import { demoPhrases } from '../../e2e/support/demo-loft';
import { fakeEar, fakeSample } from '../../fakes/ear';

const book = demoPhrases();
const lines = phrasesToRead(book);

describe('the lines', () => {
  it('are the fixed commands of a pack, with the short risky ones, in about a minute', () => {
    expect(lines.map(({ words }) => words)).toEqual([
      'stage complete',
      'affirm',
      'negative',
      'say again',
      'what remains',
      'stand by',
      'resume packing',
      'resume',
      'correction',
      'call inspector',
      'one more stow',
      'stow',
      'item placed',
      'item removed',
      'release hold',
      'send back for rework',
      'read list',
      'nothing found',
      'all items seen',
      'card in pocket',
      'stop and tag',
    ]);
  });

  it.each(lines.map(({ command, words }) => [words, command] as const))(
    '"%s" is understood as %s',
    (words, command) => {
      const read = book.understand({ commands: [command], nouns: [] }, words);
      expect(read).toEqual({ kind: 'command', command: { name: command }, rule: command });
    },
  );

  it('all fit in the sample store', () => {
    expect(lines.length).toBeLessThanOrEqual(SAMPLES_MAX);
    expect(Math.max(...lines.map(({ words }) => words.length))).toBeLessThanOrEqual(WORDS_MAX);
    expect(new Set(lines.map(({ words }) => words)).size).toBe(lines.length);
  });

  it('verdicts are read by inspectors alone', () => {
    const verdicts = lines.filter(({ words }) => isVerdict(lines, words)).map(({ words }) => words);
    expect(verdicts).toEqual(['release hold', 'send back for rework']);
    expect(phrasesFor(lines, true)).toEqual(lines);
    expect(phrasesFor(lines, false)).toHaveLength(lines.length - 2);
  });
});

describe('the owner of a voice', () => {
  it('is a digest of the id: another for each person, the same for every badge', () => {
    expect(voiceOwner({ id: 'hazel-orrin' })).toMatch(/^[0-9a-f]{64}$/);
    expect(voiceOwner({ id: 'hazel-orrin' })).toBe(voiceOwner({ id: 'hazel-orrin' }));
    expect(voiceOwner({ id: 'hazel-orrin' })).not.toBe(voiceOwner({ id: 'ines-calloway' }));
  });
});

describe('a reading', () => {
  const start = beginReading(lines.slice(0, 3));
  const missed = (reading: Reading, times: number): Reading =>
    times === 0 ? reading : missed(missedLine(reading, 'silence'), times - 1);

  it('goes from line to line, each heard once', () => {
    const [first, second, third] = ['stage complete', 'affirm', 'negative'].map(fakeSample);
    if (!first || !second || !third) throw new Error('three');
    const end = heardLine(heardLine(heardLine(start, first), second), third);
    expect(end.taken).toEqual([first, second, third]);
    expect([isRead(end), lineOf(end)]).toEqual([true, null]);
  });

  it('asks for a line twice again and then leaves it out', () => {
    expect(lineOf(missed(start, 2))).toBe('stage complete');
    expect(missed(start, 2).tries).toBe(2);
    const next = missed(start, 3);
    expect([lineOf(next), next.tries, next.taken]).toEqual(['affirm', 0, []]);
  });

  it('takes no sample of other words than were asked for', () => {
    const wrong = heardLine(start, fakeSample('stop and tag'));
    expect([wrong.taken, wrong.miss, lineOf(wrong)]).toEqual([[], 'not-these-words', 'stage complete']);
  });

  it('counts the tries of each line anew', () => {
    const second = heardLine(missed(start, 2), fakeSample('stage complete'));
    expect(second.tries).toBe(0);
    expect(lineOf(missed(second, 2))).toBe('affirm');
  });

  it('leaves a line out when it is wanted so', () => {
    const end = skipLine(skipLine(skipLine(start)));
    expect([isRead(end), end.taken]).toEqual([true, []]);
  });

  it('is left when nobody has spoken at two lines, and not before; a word in between counts anew', () => {
    expect(isLeft(missed(start, 5))).toBe(false);
    expect(isLeft(missed(start, 6))).toBe(true);
    expect(isLeft(missed(missedLine(missed(start, 4), 'too-loud'), 2))).toBe(false);
    expect(isLeft(missed(heardLine(missed(start, 4), fakeSample('affirm')), 2))).toBe(false);
  });
});

describe('what is of use', () => {
  it('is what the ear can compare with: as many lines as it needs, and not one fewer', () => {
    const read = (count: number): Reading =>
      lines.slice(0, count).reduce((so, { words }) => heardLine(so, fakeSample(words)), beginReading(lines));
    for (const count of [LINES_MIN - 1, LINES_MIN]) {
      expect(isEnough(read(count))).toBe(templateScorerOf(read(count).taken) !== null);
    }
    expect(isEnough(read(LINES_MIN))).toBe(true);
  });
});

describe('waiting for a line', () => {
  beforeEach(() => vi.useFakeTimers());
  afterEach(() => vi.useRealTimers());

  it('ends as silence when nobody says anything, and closes the ear', async () => {
    const ear = fakeEar();
    const sample = sampleInTime(ear, 'affirm');
    await vi.advanceTimersByTimeAsync(SILENCE_MS - 1);
    expect(ear.sampling()).toBe('affirm');
    await vi.advanceTimersByTimeAsync(1);
    expect(await sample).toMatchObject({ ok: false, reason: 'silence' });
    expect(ear.sampling()).toBeNull();
  });

  it('stopped by somebody else it is not silence', async () => {
    const ear = fakeEar();
    const sample = sampleInTime(ear, 'affirm');
    ear.hush();
    expect(await sample).toMatchObject({ ok: false, reason: 'stopped' });
  });

  it('forgets its time when the line was heard: the next one is not cut short', async () => {
    const ear = fakeEar();
    const first = sampleInTime(ear, 'affirm');
    await vi.advanceTimersByTimeAsync(SILENCE_MS - 1);
    ear.read('affirm');
    expect((await first).ok).toBe(true);
    void sampleInTime(ear, 'negative');
    await vi.advanceTimersByTimeAsync(10);
    expect(ear.sampling()).toBe('negative');
  });
});
