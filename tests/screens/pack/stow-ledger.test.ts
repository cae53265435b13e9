/** The stow ledger: done, next and left, with sides and loops where the plan has them. */
import { describe, expect, it } from 'vitest';
import type { AppView } from '../../../src/screens/contract/app-view';
import type { StowLedgerView } from '../../../src/screens/contract/pack-view';
import { draw, readable } from '../drawn';
import { changed, fixture, read } from '../named';

describe('stow ledger', () => {
  const shapes = (name: string): readonly string[] =>
    [...draw(fixture(name)).matchAll(/class="stow stow-(\w+)"/g)].map((match) => match[1] ?? '');

  it('draws every stow once, done, next and still to do', () => {
    const drawn = shapes('stage-stow');
    expect(drawn).toEqual([...Array<string>(5).fill('done'), 'next', ...Array<string>(6).fill('todo')]);
    expect(shapes('stage-stow-many')).toEqual(Array<string>(28).fill('done'));
  });

  it('puts left stows left of the tray and right ones right', () => {
    const markup = draw(fixture('stage-stow'));
    const roots = [...markup.matchAll(/class="stow stow-\w+" d="M(\d+) /g)].map((match) => Number(match[1]));
    expect(roots).toHaveLength(12);
    const [left, right] = [roots[0] ?? 0, roots[1] ?? 0];
    expect(left).toBeLessThan(right);
    expect(roots).toEqual(Array.from({ length: 12 }, (_, index) => (index % 2 === 0 ? left : right)));
  });

  it('draws no side that it was not told', () => {
    expect(draw(fixture('stage-stow-unsided')).match(/<rect class="stow /g)).toHaveLength(11);
  });

  it('says in words what it draws', () => {
    expect(draw(fixture('stage-stow'))).toContain('aria-label="5 of 12 stows are in, the next goes right"');
    expect(draw(fixture('stage-stow-many'))).toContain('aria-label="28 of 28 stows are in, all stows are in"');
  });

  it('shows the line used, left now and left at the end', () => {
    expect(read('stage-stow')).toContain('Line used 50 in Left now 107 in Left at the end 37 in');
  });
});

describe('stow ledger of a plan that ends with what is left', () => {
  /** Five of 3 to 7 stows are in; each pair lies on the next loop from the centre outward. */
  const UNTIL: Partial<StowLedgerView> = {
    done: 5,
    planned: 7,
    least: 3,
    wanted: { lowest: { value: 18, unit: 'in' }, highest: { value: 38, unit: 'in' } },
    nextSide: 'right',
    nextLoop: 3,
    sides: ['left', 'right', 'left', 'right', 'left', 'right', 'left'],
    loops: [1, 1, 2, 2, 3, 3, 4],
    viewpoint: 'as seen from the mouth of the bag',
    leadIn: { value: 6, unit: 'in' },
    remainder: { value: 28, unit: 'in' },
  };
  const ledger = (differing: Partial<StowLedgerView>): AppView =>
    changed('stage-stow', (view) => {
      if (view.detail.screen !== 'stage' || view.detail.stow === null) throw new Error('the fixture stows');
      return { ...view, detail: { ...view.detail, stow: { ...view.detail.stow, ...differing } } };
    });
  const markup = draw(ledger(UNTIL));
  const text = readable(markup);
  const plain = read('stage-stow');

  it('says between which numbers it may end', () => {
    expect(text).toContain('5 of 3 to 7 stows');
    expect(plain).toContain('5 of 12 stows');
  });

  it('shows the wanted band, and not the one length that is in its middle', () => {
    expect(text).toMatch(/Left at the end 18 in to 38 in/);
    expect(text).not.toContain('28 in');
  });

  it('says on which loop from the centre the next stow lies', () => {
    expect(text).toContain('Next: right, loop 3 from the centre');
    expect(plain).not.toContain('from the centre');
  });

  it('draws the stows of one loop beside each other, the centre at the bottom and each further loop above', () => {
    const roots = [...markup.matchAll(/class="stow stow-\w+" d="M(\d+) ([\d.]+)H/g)].map(([, x, y]) => [
      Number(x),
      Number(y),
    ]);
    expect(roots).toHaveLength(7);
    const heights = roots.map(([, y]) => y ?? 0);
    expect(heights[0]).toBe(heights[1]);
    expect(heights[2]).toBe(heights[3]);
    expect(heights[4]).toBe(heights[5]);
    const [first = 0, , second = 0, , third = 0, , fourth = 0] = heights;
    expect([first, second, third, fourth]).toEqual([first, second, third, fourth].sort((a, b) => b - a));
    expect(new Set([first, second, third, fourth]).size).toBe(4);
    expect(roots[0]?.[0]).toBeLessThan(roots[1]?.[0] ?? 0);
  });

  it('says whose left and right are meant', () => {
    expect(text).toContain('Left and right as seen from the mouth of the bag');
    expect(plain).not.toContain('Left and right');
  });

  it('names the lead-in beside the other lengths, and none where there is none', () => {
    expect(text).toContain(', lead-in 6 in');
    expect(plain).not.toContain('lead-in');
  });

  it('says nothing of a next loop when all are in', () => {
    const full = readable(draw(ledger({ ...UNTIL, done: 7, nextSide: null, nextLoop: null })));
    expect(full).toContain('All stows are in');
    expect(full).not.toContain('from the centre');
  });
});
