// @vitest-environment jsdom
/** The scanner's scanner on a page: a scan never types into a field or works a key; typing always arrives. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { RawReading, SightingPort } from '../../../src/scan/sighting';
import { createWedgeScanner } from '../../../src/scan/wedge/wedge-scanner';
import { usStroke } from './us-keyboard';

let scanner: SightingPort;
let readings: RawReading[];
let field: HTMLInputElement;
let pageKeys: string[];
/** How late key strokes reach the page. */
let lateMs = 0;
const onPageKey = (event: KeyboardEvent): void => {
  pageKeys.push(event.key);
};

/** Types as a browser would: a keydown, and its character into the field that has the focus unless prevented. */
function press(key: string, gapMs: number): void {
  vi.advanceTimersByTime(gapMs);
  const { code, shift } = usStroke(key);
  const event = new KeyboardEvent('keydown', {
    key,
    code: key.length > 1 ? key : code,
    shiftKey: shift,
    bubbles: true,
    cancelable: true,
  });
  Object.defineProperty(event, 'timeStamp', { value: performance.now() - lateMs });
  const { activeElement } = document;
  if ((activeElement ?? document.body).dispatchEvent(event) && key.length === 1) type(key);
}

function type(text: string): void {
  const { activeElement } = document;
  if (activeElement instanceof HTMLInputElement) activeElement.value += text;
}

function scan(text: string, end = 'Enter'): void {
  for (const character of text) press(character, 8);
  if (end !== '') press(end, 8);
}

beforeEach(async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
  vi.advanceTimersByTime(1000);
  document.body.innerHTML = '<input id="field"><button id="button">B</button>';
  field = document.querySelector('input') ?? document.createElement('input');
  // jsdom has no editing commands; in the browser this types at the caret.
  document.execCommand = (_command, _show, text = '') => {
    type(text);
    return true;
  };
  readings = [];
  pageKeys = [];
  lateMs = 0;
  scanner = createWedgeScanner(window);
  scanner.onReading((reading) => readings.push(reading));
  window.addEventListener('keydown', onPageKey, { capture: true });
  await scanner.start();
});

afterEach(() => {
  scanner.stop();
  window.removeEventListener('keydown', onPageKey, { capture: true });
  vi.useRealTimers();
});

const read = (payload: string): RawReading => ({ payload, symbology: 'unknown', reader: 'wedge' });

describe('a scan', () => {
  it('is read, and neither the field nor the page sees a key of it', () => {
    field.focus();
    scan('QC-204-118');
    vi.advanceTimersByTime(1000);
    expect(readings).toEqual([read('QC-204-118')]);
    expect(field.value).toBe('');
    expect(pageKeys).toEqual([]);
  });

  it('without Enter is read after its pause and the time in which a stroke may come late', () => {
    field.focus();
    scan('QC-204-118', '');
    expect(readings).toEqual([]);
    vi.advanceTimersByTime(259);
    expect(readings).toEqual([]);
    vi.advanceTimersByTime(2);
    expect(readings).toEqual([read('QC-204-118')]);
    expect(field.value).toBe('');
  });

  it('of which the machine hands on the rest late is read whole', () => {
    field.focus();
    scan('QC-204', '');
    lateMs = 180;
    vi.advanceTimersByTime(lateMs);
    scan('-118');
    vi.advanceTimersByTime(1000);
    expect(readings).toEqual([read('QC-204-118')]);
    expect(field.value).toBe('');
  });

  it('does not press the button that has the focus', () => {
    document.querySelector('button')?.focus();
    scan('QC-204-118');
    expect(pageKeys).toEqual([]);
  });

  it('that follows typing leaves the typing where it was', () => {
    field.focus();
    press('a', 100);
    vi.advanceTimersByTime(50);
    scan('QC-204-118');
    vi.advanceTimersByTime(1000);
    expect(readings).toEqual([read('QC-204-118')]);
    expect(field.value).toBe('a');
  });

  it('that comes at the very moment of a key stroke is read with it, so that it will be refused', () => {
    field.focus();
    press('x', 100);
    scan('QC-204-118');
    expect(readings).toEqual([read('xQC-204-118')]);
    expect(field.value).toBe('');
  });
});

describe('typing', () => {
  it('arrives in the field and at the page, a moment later', () => {
    field.focus();
    for (const character of 'hello') press(character, 120);
    vi.advanceTimersByTime(100);
    expect(field.value).toBe('hello');
    expect(pageKeys).toEqual([...'hello']);
    expect(readings).toEqual([]);
  });

  it('arrives in order even where three keys come at once and Enter follows', () => {
    field.focus();
    for (const character of 'abc') press(character, 5);
    press('Enter', 5);
    expect(field.value).toBe('abc');
    expect(pageKeys).toEqual(['a', 'b', 'c', 'Enter']);
  });

  it('is not typed where the page has used the key', () => {
    field.focus();
    const use = (event: KeyboardEvent): void => event.preventDefault();
    field.addEventListener('keydown', use);
    press('x', 100);
    vi.advanceTimersByTime(100);
    expect(field.value).toBe('');
    expect(pageKeys).toEqual(['x']);
  });
});

describe('stopping', () => {
  it('leaves the keys alone, and starting again takes them up', async () => {
    scanner.stop();
    field.focus();
    scan('QC-204-118');
    vi.advanceTimersByTime(1000);
    expect(readings).toEqual([]);
    expect(field.value).toBe('QC-204-118');
    await scanner.start();
    scan('QB-031-077');
    expect(readings).toEqual([read('QB-031-077')]);
  });

  it('stands before handlers that were added between making and starting', async () => {
    scanner.stop();
    const late: string[] = [];
    const onLate = (event: KeyboardEvent): void => {
      late.push(event.key);
    };
    window.addEventListener('keydown', onLate, { capture: true });
    await scanner.start();
    scan('QC-204-118');
    expect(late).toEqual([]);
    window.removeEventListener('keydown', onLate, { capture: true });
  });

  it('a listener that was taken away is not told', () => {
    const other: RawReading[] = [];
    const forget = scanner.onReading((reading) => other.push(reading));
    forget();
    scan('QC-204-118');
    expect(other).toEqual([]);
  });
});
