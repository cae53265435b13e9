// @vitest-environment jsdom
/** What is drawn when: the level changes ten times a second and must not redraw a screen; the picture stays one. */
import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { AppView } from '../../src/screens/contract/app-view';
import { App } from '../../src/screens/App';
import * as Sheets from '../../src/screens/parts/Sheet';
import { statusBarOf } from './drawn';
import { NO_ACTS } from './no-acts';
import { fixturesAt } from './fixtures';

Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });

const NOW = Date.parse('2026-11-25T13:00:00Z');
const FIXTURES = fixturesAt(NOW);
const statusBar = statusBarOf('listening');

let root: Root;
let videos: (HTMLVideoElement | null)[] = [];
const cameraRef = (video: HTMLVideoElement | null): void => {
  videos.push(video);
};

function show(name: string, level: number): void {
  const view: AppView | undefined = FIXTURES[name];
  if (view === undefined) throw new Error(`no fixture ${name}`);
  act(() => root.render(<App view={view} statusBar={statusBar} level={level} acts={NO_ACTS} cameraRef={cameraRef} />));
}

beforeEach(() => {
  videos = [];
  root = createRoot(document.body.appendChild(document.createElement('div')));
});
afterEach(() => {
  act(() => root.unmount());
  document.body.replaceChildren();
  vi.restoreAllMocks();
  vi.useRealTimers();
});

describe('the level', () => {
  it.each(['start', 'stage-stow'])('moves its bar and redraws nothing else: %s', (name) => {
    const sheet = vi.spyOn(Sheets, 'Sheet');
    show(name, 0.2);
    const before = sheet.mock.calls.length;
    show(name, 0.7);
    expect(document.querySelector('.status-bar .level-now')?.getAttribute('width')).toBe('70');
    expect(sheet.mock.calls.length).toBe(before);
    expect(before).toBeGreaterThan(0);
  });
});

describe('the camera picture', () => {
  it('gives its element when a scan is wanted and takes it back when not', () => {
    show('identify', 0);
    expect(videos).toHaveLength(1);
    expect(videos[0]?.tagName).toBe('VIDEO');
    show('identify', 0.5);
    show('identify-refused', 0.5);
    expect(videos).toHaveLength(1);
    show('stage-confirm', 0.5);
    expect(videos).toHaveLength(2);
    expect(videos[1]).toBeNull();
  });
});

describe('a new screen', () => {
  it('has the focus on its heading when the control that had it is gone', () => {
    show('identify-read-back', 0);
    document.querySelector<HTMLElement>('[data-command="affirm"]')?.focus();
    show('stage-confirm', 0);
    expect(document.activeElement?.tagName).toBe('H1');
  });

  it('leaves the focus where it is when its control is still there', () => {
    show('stage-confirm', 0);
    const control = document.querySelector<HTMLElement>('[data-command="sayAgain"]');
    control?.focus();
    show('stage-answer', 0);
    expect(document.activeElement).toBe(control);
  });
});

describe('the time for a verdict', () => {
  it('is counted down while nothing else changes', () => {
    vi.useFakeTimers({ now: NOW });
    show('hold-inspecting', 0);
    expect(document.querySelector('.countdown')?.textContent).toBe('41 seconds left');
    act(() => vi.advanceTimersByTime(40_000));
    expect(document.querySelector('.countdown')?.textContent).toBe('1 second left');
    act(() => vi.advanceTimersByTime(5_000));
    expect(document.querySelector('.countdown')?.textContent).toBe('0 seconds left');
  });
});
