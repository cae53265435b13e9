/** What the screens of a pack owe a person. */
import { describe, expect, it } from 'vitest';
import { secondsLeft } from '../../../src/screens/hold/HoldScreen';
import { draw, readable } from '../drawn';
import { fixturesAt } from '../fixtures';
import { changed, fixture, read } from '../named';

describe('a procedure that is only for demonstration', () => {
  const LINE = 'This procedure must not be used to pack a parachute.';
  const OF_A_PACK = ['stage-confirm', 'stage-stow', 'hold-waiting', 'hold-inspecting', 'close-up', 'sign', 'rehearsal'];

  it.each(OF_A_PACK)('is called so on %s', (name) => expect(read(name)).toContain(LINE));

  it('is called so while a value is read back', () => expect(read('stage-measure-read-back')).toContain(LINE));

  it('and a procedure of the loft’s own is not', () => {
    const own = changed('stage-confirm', (view) => ({ ...view, demonstration: null }));
    expect(readable(draw(own))).not.toContain('must not be used');
  });
});

describe('measurement', () => {
  it('shows nothing of what is expected before a reading, and all of it afterwards', () => {
    expect(draw(fixture('stage-measure'))).not.toMatch(/37|36|38|tape/);
    expect(read('stage-measure')).toContain('what is expected is shown afterwards');
    expect(draw(fixture('stage-measure-outside'))).toContain('<span class="unseen">36 1/4 in</span>');
    expect(read('stage-measure-outside')).toMatch(/37 in from .* to 38 in/);
  });

  it('says of a value outside by how much and which way', () => {
    const markup = draw(fixture('stage-measure-outside'));
    expect(markup).toContain('tape-outside');
    expect(readable(markup)).toMatch(/is out: .* too long/);
    const short = changed('stage-measure-outside', (view) =>
      view.detail.screen === 'stage' && view.detail.measure !== null
        ? {
            ...view,
            detail: {
              ...view.detail,
              measure: {
                ...view.detail.measure,
                outside: { value: { value: 35, unit: 'in' }, deviation: -2, unit: 'in' },
              },
            },
          }
        : view,
    );
    expect(readable(draw(short))).toContain('35 in is out: 2 in too short');
  });
});

describe('temporary items', () => {
  it('are named while they are in', () => {
    expect(read('stage-stow')).toContain('In now: link tie, bag pin');
  });
  it.each([
    ['stage-place', 'Goes in bag pin'],
    ['stage-remove', 'Comes out pull cord'],
    ['stage-restore', 'Goes in bag pin'],
  ])('%s says which way', (name, words) => {
    expect(read(name)).toContain(words);
  });
});

describe('hold', () => {
  it('says what is to be inspected and which inspector it needs', () => {
    expect(read('hold-waiting')).toContain('Inspector for in-process holds: look first, then scan your badge');
    expect(read('hold-waiting')).toContain('Holding pin in, no line under the flap.');
  });

  it('says who inspects and how long a verdict may still take', () => {
    expect(draw(fixture('hold-waiting'))).not.toContain('countdown');
    const text = readable(draw(fixturesAt(Date.now())['hold-inspecting'] ?? fixture('loading')));
    expect(text).toContain('Inspector: Tomas Lindqvist');
    expect(text).toMatch(/4[01] seconds left/);
  });

  it('counts whole seconds and never below zero', () => {
    const deadline = '2026-11-25T14:00:10+01:00';
    expect(secondsLeft(deadline, Date.parse('2026-11-25T13:00:00Z'))).toBe(10);
    expect(secondsLeft(deadline, Date.parse('2026-11-25T13:00:09.001Z'))).toBe(1);
    expect(secondsLeft(deadline, Date.parse('2026-11-25T13:05:00Z'))).toBe(0);
  });
});

describe('blocked', () => {
  it('names first what stands against packing', () => {
    const text = read('blocked');
    expect(text.indexOf('Repack was due')).toBeLessThan(text.indexOf('2 checks good'));
    expect(text).toContain('Canopy not good');
    expect(text).toContain('Outstanding work: replace the left riser cover.');
  });

  it('offers nothing that goes on', () => {
    expect(draw(fixture('blocked'))).not.toMatch(/data-command="(stageComplete|affirm|resume|next)"/);
  });
});
