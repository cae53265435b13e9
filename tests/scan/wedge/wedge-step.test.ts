/** Scanner or typing: told by timing alone, as tables of key strokes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { characterOf } from '../../../src/scan/wedge/key-character';
import type { KeyStroke } from '../../../src/scan/wedge/key-character';
import { wedgePause, wedgeStep, WEDGE_DEFAULTS, WEDGE_IDLE } from '../../../src/scan/wedge/wedge-step';
import type { WedgeSettings } from '../../../src/scan/wedge/wedge-step';
import { usStroke } from './us-keyboard';

const stroke = (parts: Partial<KeyStroke>): KeyStroke => ({
  key: '',
  code: '',
  shift: false,
  ctrl: false,
  alt: false,
  meta: false,
  capsLock: false,
  repeat: false,
  ...parts,
});
const enter = stroke({ key: 'Enter', code: 'Enter' });
const tab = stroke({ key: 'Tab', code: 'Tab' });
const ctrl = (character: string): KeyStroke => ({ ...usStroke(character), ctrl: true });

/** A line is strokes with a gap in milliseconds before each, or a pause. */
type Act = readonly [KeyStroke, number] | number;

function burst(text: string, gapMs = 8): Act[] {
  return [...text].flatMap((character): Act[] => {
    const made = usStroke(character);
    const shift: Act = [stroke({ key: 'Shift', code: 'ShiftLeft', shift: true }), gapMs / 2];
    return made.shift ? [shift, [made, gapMs / 2]] : [[made, gapMs]];
  });
}

/** Runs the acts; tells readings, and what the page got to see of the strokes. */
function run(acts: readonly Act[], settings: WedgeSettings = WEDGE_DEFAULTS) {
  let state = WEDGE_IDLE;
  let now = 1000;
  let held: string[] = [];
  const readings: string[] = [];
  const page: string[] = [];
  const take = (step: ReturnType<typeof wedgeStep>): void => {
    state = step.state;
    if (step.release) page.push(...held);
    if (step.release || step.reading !== null) held = [];
    if (step.reading !== null) readings.push(step.reading);
  };
  for (const act of acts) {
    if (typeof act === 'number') {
      now += act;
      take(wedgePause(state, now, settings));
      continue;
    }
    const [made, gap] = act;
    now += gap;
    const step = wedgeStep(state, { stroke: made, timeMs: now }, settings);
    take(step);
    if (step.swallow && state.text !== '') held.push(made.key);
    if (!step.swallow && made.key.length > 0 && made.key !== 'Shift') page.push(made.key);
  }
  return { readings, page: page.join(' ') };
}

const SERIAL = 'QC-204-118';

describe('a scanner', () => {
  const STORIES: readonly (readonly [string, readonly Act[], readonly string[]])[] = [
    ['ended by Enter', [...burst(SERIAL), [enter, 8]], [SERIAL]],
    ['ended by Tab', [...burst(SERIAL), [tab, 8]], [SERIAL]],
    ['ended by a pause of 60 ms', [...burst(SERIAL), 60], [SERIAL]],
    ['ended by Enter 50 ms later', [...burst(SERIAL), [enter, 50]], [SERIAL]],
    ['slow, 34 ms between characters', [...burst(SERIAL, 34), [enter, 30]], [SERIAL]],
    ['twice in a row', [...burst(SERIAL), [enter, 8], ...burst('QB-031-077'), [enter, 8]], [SERIAL, 'QB-031-077']],
    [
      'twice in a row with only a pause between',
      [...burst(SERIAL), 70, ...burst('QB-031-077'), 70],
      [SERIAL, 'QB-031-077'],
    ],
    ['four characters are enough', [...burst('A-12'), [enter, 8]], ['A-12']],
    [
      'small and capital letters, every sign',
      [...burst('SC:measured:1.25:in*_/+'), [enter, 8]],
      ['SC:measured:1.25:in*_/+'],
    ],
    ['blanks inside', [...burst('MFR 0CVA5'), [enter, 8]], ['MFR 0CVA5']],
    [
      'control characters survive',
      [
        ...burst('[)>'),
        [ctrl('^'), 8],
        ...burst('06'),
        [ctrl(']'), 8],
        ...burst('SQC-204-118'),
        [ctrl('^'), 8],
        [ctrl('D'), 8],
        [enter, 8],
      ],
      ['[)>\u001e06\u001dSQC-204-118\u001e\u0004'],
    ],
    ['FNC1 in first place', [[ctrl(']'), 8], ...burst('0109501101530003'), [enter, 8]], ['\u001d0109501101530003']],
    [
      'control characters as Alt and a number',
      [
        ...burst('QC-2'),
        ...['Numpad0', 'Numpad0', 'Numpad2', 'Numpad9'].map((code): Act => [
          stroke({ key: code.slice(-1), code, alt: true }),
          8,
        ]),
        ...burst('X'),
        [enter, 8],
      ],
      ['QC-2\u001dX'],
    ],
    ['line feed for Enter', [...burst(SERIAL), [ctrl('J'), 8]], [SERIAL]],
    [
      'a key without a character spoils the scan, and does not shorten it',
      [...burst('QC-2'), [stroke({ key: 'F8', code: 'F8' }), 8], ...burst('04'), [enter, 8]],
      ['QC-2\ufffd04'],
    ],
  ];
  it.each(STORIES)('%s', (_title, acts, expected) => {
    const { readings, page } = run(acts);
    expect(readings).toEqual(expected);
    expect(page).toBe('');
  });

  it('is told from the Enter that somebody presses long after it', () => {
    const { readings, page } = run([...burst(SERIAL), [enter, 400]]);
    expect(readings).toEqual([SERIAL]);
    expect(page).toBe('Enter');
  });

  it('that never ends is cut off, and will be refused as too long', () => {
    const { readings } = run([...burst('A'.repeat(2_500), 2), [enter, 8]]);
    expect(readings[0]?.length).toBe(2_000);
  });

  it.each([
    ['%', '', '%QC-204-118', SERIAL],
    ['', '~~', 'QC-204-118~~', SERIAL],
    ['%', '~', '%QC-204-118~', SERIAL],
    ['%', '~', 'QC-204-118', SERIAL],
    ['QC-2', 'C-2', 'QC-2', ''],
  ])('prefix %j and suffix %j are taken off %j', (...[prefix, suffix, sent, expected]) => {
    const { readings } = run([...burst(sent), [enter, 8]], { ...WEDGE_DEFAULTS, prefix, suffix });
    expect(readings).toEqual([expected]);
  });

  it('gives back any text whatever its gaps, as long as they are short', () => {
    const text = fc.string({ unit: fc.constantFrom(...'ABCXYZabcxyz0189-:.*[]>)('), minLength: 4, maxLength: 60 });
    fc.assert(
      fc.property(text, fc.integer({ min: 1, max: 34 }), (sent, gap) => {
        expect(run([...burst(sent, gap), [enter, gap]])).toEqual({ readings: [sent], page: '' });
      }),
    );
  });
});

describe('typing', () => {
  const typed = (text: string, gapMs: number): Act[] => [...text].flatMap((one): Act[] => [gapMs, [usStroke(one), 0]]);
  it.each([
    ['at 35 ms', [...typed('hello', 35), 100], 'h e l l o'],
    ['at 120 ms', [...typed('hello', 120), 100], 'h e l l o'],
    ['three keys at once', [...burst('abc', 5), 100], 'a b c'],
    ['three keys at once, then Enter', [...burst('abc', 5), [enter, 5]], 'a b c Enter'],
    ['three keys at once, then an arrow', [...burst('abc', 5), [stroke({ key: 'ArrowLeft' }), 5]], 'a b c ArrowLeft'],
    ['a blank alone works the button', [[usStroke(' '), 50]], ' '],
    ['Enter alone works the button', [[enter, 50]], 'Enter'],
    ['a shortcut', [[ctrl('c'), 50]], 'c'],
    [
      'a key held down',
      [[usStroke('a'), 50], ...Array.from({ length: 5 }, (): Act => [{ ...usStroke('a'), repeat: true }, 30])],
      'a a a a a a',
    ],
    ['a function key', [[stroke({ key: 'F5', code: 'F5' }), 50]], 'F5'],
  ] as readonly (readonly [string, readonly Act[], string])[])('%s reaches the page in order', (_title, acts, page) => {
    expect(run(acts)).toEqual({ readings: [], page });
  });
});

describe('keyboard layouts', () => {
  it.each([
    ['German system, US scanner: y and z change places', { key: 'z', code: 'KeyY' }, 'us', 'y'],
    ['German system, US scanner: hyphen', { key: 'ß', code: 'Minus' }, 'us', '-'],
    ['German system, US scanner: colon', { key: 'Ö', code: 'Semicolon', shift: true }, 'us', ':'],
    ['German system, US scanner: star', { key: '(', code: 'Digit8', shift: true }, 'us', '*'],
    ['French system, US scanner: digit', { key: '&', code: 'Digit1' }, 'us', '1'],
    ['a dead key', { key: 'Dead', code: 'Backquote' }, 'us', '`'],
    ['Russian system, US scanner', { key: 'й', code: 'KeyQ' }, 'us', 'q'],
    ['scanner set to the German system', { key: '-', code: 'Slash' }, 'host', '-'],
    [
      'caps lock on: the scanner still means capitals',
      { key: 'a', code: 'KeyA', shift: true, capsLock: true },
      'us',
      'A',
    ],
    ['caps lock on: digits stay', { key: '7', code: 'Digit7', capsLock: true }, 'us', '7'],
    ['number pad', { key: '5', code: 'Numpad5' }, 'us', '5'],
    ['an unknown place', { key: 'x', code: '' }, 'us', 'x'],
    ['the system key', { key: 'a', code: 'KeyA', meta: true }, 'us', null],
    ['a key that prints nothing', { key: 'Escape', code: 'Escape' }, 'us', null],
    ['Ctrl+6 is RS', { key: '6', code: 'Digit6', ctrl: true }, 'us', '\u001e'],
    ['Ctrl+1 is nothing', { key: '1', code: 'Digit1', ctrl: true }, 'us', null],
  ] as const)('%s', (...[, parts, keyboard, expected]) => {
    expect(characterOf(stroke(parts), keyboard)).toBe(expected);
  });
});

describe('two scanners that type into one another', () => {
  const framed = { ...WEDGE_DEFAULTS, prefix: '~1', suffix: '~9' };
  it('each reading alone is taken, without what stands around it', () => {
    const { readings } = run(
      [...burst('~1QC-204-118~9'), [enter, 8], 200, ...burst('~1QB-031-077~9'), [enter, 8]],
      framed,
    );
    expect(readings).toEqual(['QC-204-118', 'QB-031-077']);
  });

  it.each([
    ['one begins inside the other', '~1QC-2~1QB-031-077~904-118~9'],
    ['one ends inside the other', '~1QC-204~9-118~9'],
  ])('%s: the reading is spoiled and will be refused', (_name, text) => {
    const { readings } = run([...burst(text), [enter, 8]], framed);
    expect(readings).toHaveLength(1);
    expect(readings[0]).toContain('\ufffd');
  });
});
