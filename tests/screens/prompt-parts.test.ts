/** Every part of a prompt stands on its screen once: what the screen draws itself is not said a second time. */
import { describe, expect, it } from 'vitest';
import type { AppView } from '../../src/screens/contract/app-view';
import type { Detail, StepPrompt } from '../../src/screens/contract/pack-view';
import { askedOf } from '../../src/screens/parts/asked';
import { part } from '../../src/packing/words/prompt-parts';
import { draw, readable } from './drawn';
import { fixturesAt } from './fixtures';
import { asking, lines, pack, say, todo, what } from './fixtures/parts';
import { realViews } from './real-views';

const NOW = Date.parse('2026-11-25T13:00:00Z');
const FIXTURES = Object.entries(fixturesAt(NOW)).map(([name, view]) => ({ name, view }));

function promptOf(view: AppView): StepPrompt | null {
  if (view.screen === 'pack') return view.pin === undefined && view.view.readBack === null ? view.view.prompt : null;
  return view.screen === 'rehearsal' ? view.view.prompt : null;
}

function times(text: string, sentence: string): number {
  return text.split(sentence).length - 1;
}

/** What is asked for: the sentences that no screen draws in another way. */
const ASKED = ['todo', 'say'];

/** Parts that are asked for and that stand on the screen never or more than once. */
function misplaced({ name, view }: { readonly name: string; readonly view: AppView }): readonly string[] {
  const prompt = promptOf(view);
  if (prompt === null) return [];
  const text = readable(draw(view));
  return prompt.parts
    .filter(({ kind, show }) => ASKED.includes(kind) && show !== '')
    .map(({ show }) => ({ show, count: times(text, show) }))
    .filter(({ count }) => count !== 1)
    .map(({ show, count }) => `${name}: ${String(count)} times "${show}"`);
}

const STAGE: Detail = {
  screen: 'stage',
  number: 5,
  of: 22,
  kind: 'confirm',
  title: 'Line stows',
  steps: ['Turn each band twice.'],
  caution: 'Keep every stow to four inches',
  stow: null,
  measure: null,
  count: null,
  item: null,
  itemsIn: [],
};

const READ = [
  what('Stage 5 of 22. Line stows.'),
  ...lines(['Turn each band twice.']),
  part('caution', 'Caution: Keep every stow to four inches.'),
];

/** The sentences in the type of what is asked for. */
function saidOn(show: Parameters<typeof pack>[1]['show']): string {
  const markup = draw(pack(STAGE, { show, legal: [] }));
  return [...markup.matchAll(/<p class="said[^"]*">(.*?)<\/p>/gs)].map((match) => readable(match[1] ?? '')).join(' | ');
}

describe('what is asked for', () => {
  it.each([
    ['the fixtures', FIXTURES],
    ['the demo packs and rehearsals', realViews()],
  ])('stands on the screen exactly once: %s', (_, views) => {
    expect(views.filter(({ view }) => promptOf(view) !== null).length).toBeGreaterThan(30);
    expect(views.flatMap(misplaced)).toEqual([]);
  });

  it('is what to do now, when the stage is read out whole', () => {
    expect(saidOn([...READ, say('Say stage complete.')])).toBe('Say stage complete.');
  });

  it('is everything, when nothing of it is drawn in another way', () => {
    expect(saidOn([todo('5 of 12 stows.'), todo('Next, right.')])).toBe('5 of 12 stows. Next, right.');
  });

  it('is nothing, when all is drawn', () => {
    expect(saidOn(READ)).toBe('');
  });

  it('keeps a title that is only part of a sentence', () => {
    const asked = 'A stow is loose. Back to stage 13, Line stows. Say affirm.';
    expect(saidOn([...READ, todo(asked)])).toBe(asked);
  });

  it('keeps a sentence that merely begins like one that is drawn', () => {
    expect(saidOn([...READ, todo('Line stows are loose.')])).toBe('Line stows are loose.');
  });

  it('keeps a sentence that says the same as one that is drawn', () => {
    expect(saidOn([...READ, todo('Turn each band twice.')])).toBe('Turn each band twice.');
  });

  it('ignores parts that show nothing', () => {
    expect(askedOf(asking('Line stows.', [part('notice', { say: 'Not taken.', show: '' }), what('Line stows.')]))).toBe(
      '',
    );
  });
});
