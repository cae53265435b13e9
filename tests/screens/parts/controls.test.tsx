// @vitest-environment jsdom
/** Touch and keys: each gives the command it says, once, in the step it was meant for; a scanner gives none. */
import { act } from 'react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { AppView } from '../../../src/screens/contract/app-view';
import type { PackView } from '../../../src/packing/machine/view';
import { createWedgeScanner } from '../../../src/scan/wedge/wedge-scanner';
import { keyShortcut } from '../../../src/screens/parts/keys';
import { QUIET_MS } from '../../../src/screens/parts/lone-key';
import { legalOf } from '../drawn';
import { fixturesAt } from '../fixtures';
import { asking } from '../fixtures/parts';
import { key, openPage, type Page } from '../page';

// React warns about updates outside of `act` unless it is told that this is a test.
Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });

const FIXTURES = fixturesAt(Date.parse('2026-11-25T13:00:00Z'));

function fixture(name: string): AppView {
  const view = FIXTURES[name];
  if (view === undefined) throw new Error(`no fixture ${name}`);
  return view;
}

function packOf(name: string, change: Partial<PackView>): AppView {
  const view = fixture(name);
  if (view.screen !== 'pack') throw new Error(`${name} is no pack`);
  return { screen: 'pack', view: { ...view.view, ...change } };
}

// As in the kiosk, the scanner's reader listens before the page does.
const scanner = createWedgeScanner(window);

let page: Page;
function open(view: AppView): void {
  page = openPage(view);
}
function quiet(): void {
  act(() => {
    vi.advanceTimersByTime(QUIET_MS * 3);
  });
}
/** Keys of a finger: each with quiet after it. */
function fingers(...names: readonly string[]): void {
  for (const name of names) {
    key(name);
    quiet();
  }
}

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval', 'Date', 'performance'] });
});
afterEach(() => {
  page.close();
  vi.useRealTimers();
});

const PRESSES = Object.entries(FIXTURES).flatMap(([name, view]) =>
  legalOf(view)
    .filter(({ input }) => input.kind === 'press')
    .map((legal) => [legal.name, name] as const),
);
/** Each command once, on the first screen that has it. */
const ONCE = PRESSES.filter(([command], index) => PRESSES.findIndex(([other]) => other === command) === index);

describe('a command without a value', () => {
  it.each(ONCE)('%s is given by touch (%s)', (command, name) => {
    open(fixture(name));
    page.touch(page.find(`[data-command="${command}"]`));
    expect(page.given).toEqual([{ command: { name: command }, channel: 'touch' }]);
  });

  it.each(ONCE)('%s is given by its key (%s)', (command, name) => {
    open(fixture(name));
    const [shifted, last] = keyShortcut(command).split('+');
    const prevented = key(last ?? shifted ?? '', { shift: last !== undefined });
    expect(page.given).toEqual([]);
    quiet();
    expect(page.given).toEqual([{ command: { name: command }, channel: 'key' }]);
    expect(prevented).toBe(true);
  });
});

describe('keys that give nothing', () => {
  it('a key whose command is not legal, which then does what the browser does with it', () => {
    open(fixture('stage-confirm'));
    expect(key('F2')).toBe(false);
    quiet();
    expect(page.given).toEqual([]);
  });

  it.each([
    ['held down', { repeat: true }],
    ['with control', { ctrl: true }],
  ])('a key %s', (_, options) => {
    open(fixture('stage-confirm'));
    key('F1', options);
    quiet();
    expect(page.given).toEqual([]);
  });

  it('a scan, also one that ends in Enter while a control has the focus', () => {
    open(fixture('stage-confirm'));
    page.button('Stage complete').focus();
    for (const character of 'QH-K-0093') key(character);
    expect(key('Enter')).toBe(true);
    quiet();
    expect(page.given).toEqual([]);
  });

  it('a function key that a scanner sends before its scan', () => {
    open(fixture('stage-measure-read-back'));
    key('F2');
    for (const character of 'QH-K-0093') key(character);
    quiet();
    expect(page.given).toEqual([]);
  });

  it.each([
    ['before', ['F2', ...'QH-K-0093', 'Enter']],
    ['after', [...'QH-K-0093', 'Enter', 'F2']],
  ])('a function key that a scanner sends %s a scan, which its own reader takes out of the page', (_, names) => {
    const readings: string[] = [];
    scanner.onReading(({ payload }) => readings.push(payload));
    void scanner.start();
    open(fixture('stage-measure-read-back'));
    for (const name of names) key(name);
    quiet();
    scanner.stop();
    expect(page.given).toEqual([]);
    expect(readings).toEqual(['QH-K-0093']);
  });

  it('a key that was meant for the step before', () => {
    open(fixture('stage-confirm'));
    key('F1');
    page.show(packOf('stage-confirm', { prompt: asking('Next') }));
    quiet();
    expect(page.given).toEqual([]);
  });
});

describe('while a fact is on its way to storage', () => {
  it('the screen stays as it was and gives no command', () => {
    open(fixture('stage-confirm'));
    page.show(packOf('stage-storing', { prompt: asking('Something else') }));
    expect(page.text()).not.toContain('Something else');
    expect(page.text()).toContain('Storing');
    page.touch(page.button('Stage complete'));
    fingers('F1');
    expect(page.given).toEqual([]);
  });

  it('another pack is not hidden behind it', () => {
    open(fixture('stage-confirm'));
    page.show(packOf('identify', { storing: true, legal: [], pack: 'another' }));
    expect(page.find('h1').textContent).toBe('Identify');
  });
});

describe('the pad for counts', () => {
  it('opens by touch, takes digits and enters them', () => {
    open(fixture('stage-count'));
    page.touch(page.button('Count lines'));
    expect(page.given).toEqual([]);
    page.touch(page.button('2'));
    page.touch(page.button('8'));
    page.touch(page.button('Enter'));
    expect(page.given).toEqual([{ command: { name: 'count', count: 28, noun: 'lines' }, channel: 'touch' }]);
    expect(() => page.find('.pad')).toThrow();
  });

  it('works by keys alone', () => {
    open(fixture('stage-count'));
    fingers('F4', '2', '9', 'Backspace', '8', 'Enter');
    expect(page.given).toEqual([{ command: { name: 'count', count: 28, noun: 'lines' }, channel: 'key' }]);
  });

  it('says how many there can be, and does not enter more', () => {
    open(fixture('stage-stow'));
    fingers('F4', '8');
    expect(page.text()).toContain('At most 7 can be counted here.');
    expect(page.button('Enter').disabled).toBe(true);
    fingers('Enter');
    expect(page.given).toEqual([]);
  });

  it('takes no digits from a scan', () => {
    open(fixture('stage-count'));
    fingers('F4');
    for (const character of '0093') key(character);
    key('Enter');
    quiet();
    expect(page.given).toEqual([]);
    expect(page.find('.pad-value').textContent).toContain('type a number');
  });

  it('closes with Escape and forgets what was typed', () => {
    open(fixture('stage-count'));
    fingers('F4', '2', 'Escape');
    expect(() => page.find('.pad')).toThrow();
    fingers('F4');
    expect(page.find('.pad-value').textContent).toContain('type a number');
  });

  it('does not stay open for the next step', () => {
    open(fixture('stage-count'));
    fingers('F4', '2');
    page.show(packOf('stage-count', { prompt: asking('Next') }));
    expect(() => page.find('.pad')).toThrow();
    fingers('Enter');
    expect(page.given).toEqual([]);
  });

  it('has the focus itself, so that Enter enters the value and presses no control', () => {
    open(fixture('stage-count'));
    page.touch(page.button('Count lines'));
    expect(document.activeElement?.className).toContain('pad');
    page.touch(page.button('7'));
    expect(document.activeElement?.className).toContain('pad');
  });
});

describe('the pad for lengths', () => {
  it('joins inches and sixteenths', () => {
    open(fixture('stage-measure'));
    page.touch(page.button('Measured'));
    for (const label of ['4', '2', '5/16', 'Enter']) page.touch(page.button(label));
    expect(page.given).toEqual([{ command: { name: 'measured', value: 42.3125, unit: 'in' }, channel: 'touch' }]);
  });

  it('has every sixteenth, and the unit', () => {
    open(fixture('stage-measure'));
    page.touch(page.button('Measured'));
    const fractions = [...page.find('.pad-fractions').querySelectorAll('button')].map((each) => each.textContent);
    expect(fractions).toEqual('none 1/16 1/8 3/16 1/4 5/16 3/8 7/16 1/2 9/16 5/8 11/16 3/4 13/16 7/8 15/16'.split(' '));
    expect(page.button('inches').getAttribute('aria-pressed')).toBe('true');
  });

  it('gives feet where feet were chosen, with decimals in the place of fractions', () => {
    open(fixture('stage-measure'));
    page.touch(page.button('Measured'));
    for (const label of ['feet', '3', 'decimal point', '5', 'Enter']) page.touch(page.button(label));
    expect(page.given).toEqual([{ command: { name: 'measured', value: 3.5, unit: 'ft' }, channel: 'touch' }]);
  });
});

describe('lists to choose from', () => {
  it('stand open where they are the one thing to do', () => {
    open(fixture('hold-choosing-finding'));
    page.touch(page.button('A line runs into the bag'));
    expect(page.given).toEqual([{ command: { name: 'finding', number: 2 }, channel: 'touch' }]);
  });

  it('take a typed number', () => {
    open(fixture('hold-choosing-finding'));
    fingers('3', 'Enter');
    expect(page.given).toEqual([{ command: { name: 'finding', number: 3 }, channel: 'key' }]);
  });

  it('do not take a number that is not in them', () => {
    open(fixture('hold-choosing-finding'));
    fingers('9', 'Enter');
    expect(page.given).toEqual([]);
  });

  it('open when asked for', () => {
    open(fixture('rehearsal'));
    page.touch(page.button('Stage'));
    page.touch(page.button('Safety tie'));
    expect(page.given).toEqual([{ command: { name: 'goToStage', stage: 20 }, channel: 'touch' }]);
  });
});
