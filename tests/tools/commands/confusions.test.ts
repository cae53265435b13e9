/** The commands that can be legal together keep their distance. */
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import {
  confusions,
  FLOOR,
  LEGAL_TOGETHER,
  readPronunciations,
  runConfusions,
} from '../../../src/tools/commands/confusions';
import { loadPhraseBook } from '../../../src/voice/phrases/phrase-book';

const sources = ['commands.gram', 'numbers.gram', 'quantities.gram'].map((file) => ({
  file,
  text: readFileSync(`grammars/${file}`, 'utf8'),
}));

const read = readPronunciations();
if (!read.ok) throw new Error(read.detail);
const known = read.value;

function nearest(change: (text: string) => string) {
  const book = loadPhraseBook(sources.map(({ file, text }) => ({ file, text: change(text) })));
  if (!book.ok) throw new Error(book.detail);
  const found = confusions(book.value, known);
  if (!found.ok) throw new Error(found.detail);
  return found.value;
}

afterEach(() => {
  vi.restoreAllMocks();
});

describe('confusions', () => {
  const shipped = nearest((text) => text);

  it('every command stands in some state', () => {
    expect([...new Set(Object.values(LEGAL_TOGETHER).flat())].sort()).toEqual([...COMMAND_NAMES].sort());
  });

  it('no pair that is legal together is nearer than the floor', () => {
    const near = shipped.filter(({ distance }) => distance < FLOOR - 1e-9);
    expect(near.map(({ a, b, distance }) => `${a.phrase} ~ ${b.phrase}: ${distance}`)).toEqual([]);
  });

  it('release and return are far apart, since each undoes the other', () => {
    const pair = shipped.find(
      ({ a, b }) => [a.of, b.of].includes('releaseHold') && [a.of, b.of].includes('returnHold'),
    );
    expect(pair?.distance).toBeGreaterThan(3 * FLOOR);
  });

  it('a command word that sounds like another fails', () => {
    const near = nearest((text) => text.replace('= stop and tag {', '= stand by me {'));
    expect(near[0]).toMatchObject({ a: { of: 'standBy' }, b: { of: 'stopAndTag' } });
    expect(near[0]?.distance).toBeLessThan(FLOOR);
  });

  it('the program prints the nearest pairs and fails below the floor that it is given', async () => {
    const log = vi.spyOn(console, 'log').mockImplementation(() => undefined);
    expect(await runConfusions(['--show', '3'])).toBe(0);
    expect(log.mock.calls).toHaveLength(4);
    expect(log.mock.calls[3]?.[0]).toMatch(/pairs compared, 0 below the floor of 2\.40$/);
    expect(await runConfusions(['--show', '0', '--floor', '4'])).toBe(1);
  });
});
