/** The demo loft's own packs, from the first scan to the record: every view that they give, on its screen. */
import { describe, expect, it } from 'vitest';
import { draw, readable } from './drawn';
import { uncalledControls, uncontrolledCommands, unshownSentences } from './owed';
import { realViews } from './real-views';

const DRAWN = realViews().map(({ name, view }) => ({ name, view, markup: draw(view) }));

function where(find: (one: (typeof DRAWN)[number]) => readonly string[]): readonly string[] {
  return DRAWN.flatMap((one) => find(one).map((what) => `${one.name}: ${what}`));
}

describe('the demo packs and rehearsals', () => {
  it('go through every screen of a pack', () => {
    const screens = DRAWN.map(({ view }) => (view.screen === 'pack' ? view.view.detail.screen : view.screen));
    expect([...new Set(screens)].sort()).toEqual(
      [
        'card',
        'checkIn',
        'closeUp',
        'hold',
        'identify',
        'inspection',
        'items',
        'record',
        'rehearsal',
        'sign',
        'stage',
        'standingBy',
      ].sort(),
    );
  });

  it('show every sentence that is spoken', () => {
    expect(where(({ view, markup }) => unshownSentences(view, markup))).toEqual([]);
  });

  it('have a control for every legal command, and for no other', () => {
    expect(where(({ view, markup }) => uncontrolledCommands(view, markup))).toEqual([]);
    expect(where(({ view, markup }) => uncalledControls(view, markup))).toEqual([]);
  });

  it('show what is read back, and both answers to it', () => {
    const readBacks = DRAWN.filter(({ view }) => view.screen === 'pack' && view.view.readBack !== null);
    expect(readBacks.length).toBeGreaterThan(20);
    for (const { view, markup } of readBacks) {
      const shown = view.screen === 'pack' ? (view.view.readBack?.show ?? '') : '';
      expect(readable(markup)).toContain(shown);
      expect(markup).toMatch(/class="answers".*data-command="affirm".*data-command="negative"/s);
    }
  });

  it('never shows a sentence twice at the size of the one thing to do', () => {
    const twice = where(({ markup }) => {
      const large = [...markup.matchAll(/<(?:h1|p class="said[^"]*")>(.*?)<\/(?:h1|p)>/gs)].map((match) =>
        readable(match[1] ?? ''),
      );
      return large.filter((text, index) => large.indexOf(text) !== index);
    });
    expect(twice).toEqual([]);
  });

  it('have no style attribute', () => {
    expect(where(({ markup }) => markup.match(/\sstyle="[^"]*"/g) ?? [])).toEqual([]);
  });
});
