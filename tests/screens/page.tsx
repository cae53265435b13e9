/** The page in a test document: drawn for real, with every command that it gives. For files with the jsdom environment. */
import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import type { Command } from '../../src/domain/command';
import type { Acts } from '../../src/screens/contract/acts';
import type { AppView } from '../../src/screens/contract/app-view';
import { App } from '../../src/screens/App';
import { statusBarOf } from './drawn';
import { NO_ACTS } from './no-acts';

export interface Given {
  readonly command: Command;
  readonly channel: string;
}

export interface Page {
  readonly given: Given[];
  /** Names of the other acts that were asked for. */
  readonly asked: string[];
  readonly videos: (HTMLVideoElement | null)[];
  show(view: AppView): void;
  find(selector: string): HTMLElement;
  /** The control with exactly this label. */
  button(label: string): HTMLButtonElement;
  text(): string;
  touch(element: HTMLElement): void;
  close(): void;
}

function findIn(place: HTMLElement, selector: string): HTMLElement {
  const found = place.querySelector<HTMLElement>(selector);
  if (found === null) throw new Error(`nothing on the page is ${selector}`);
  return found;
}

function buttonIn(place: HTMLElement, label: string): HTMLButtonElement {
  const found = [...place.querySelectorAll('button')].find(
    (each) =>
      each.getAttribute('aria-label') === label ||
      each.querySelector('.command-label')?.textContent === label ||
      each.textContent === label,
  );
  if (found === undefined) throw new Error(`no control is labelled ${label}`);
  return found;
}

function actsInto(given: Given[], asked: string[]): Acts {
  const ask = (name: string) => () => {
    asked.push(name);
  };
  return {
    ...NO_ACTS,
    command: (command, channel) => {
      given.push({ command, channel });
    },
    rehearse: (procedure) => {
      asked.push(`rehearse ${procedure}`);
    },
    showLicences: ask('showLicences'),
    leave: ask('leave'),
    retry: ask('retry'),
    print: ask('print'),
  };
}

/** Opens the page at `view`. */
export function openPage(view: AppView): Page {
  const place = document.body.appendChild(document.createElement('div'));
  const root: Root = createRoot(place);
  const given: Given[] = [];
  const asked: string[] = [];
  const videos: (HTMLVideoElement | null)[] = [];
  const acts = actsInto(given, asked);
  const cameraRef = (video: HTMLVideoElement | null): void => {
    videos.push(video);
  };
  const show = (next: AppView): void =>
    act(() => {
      root.render(
        <App view={next} statusBar={statusBarOf('listening')} level={0.2} acts={acts} cameraRef={cameraRef} />,
      );
    });
  show(view);
  return {
    given,
    asked,
    videos,
    show,
    find: (selector) => findIn(place, selector),
    button: (label) => buttonIn(place, label),
    text: () => place.textContent ?? '',
    touch: (element) =>
      act(() => {
        element.dispatchEvent(new MouseEvent('click', { bubbles: true, cancelable: true, detail: 1 }));
      }),
    close: () => {
      act(() => root.unmount());
      place.remove();
    },
  };
}

export interface KeyOptions {
  readonly shift?: boolean;
  readonly repeat?: boolean;
  readonly ctrl?: boolean;
}

/** Sends one key going down and coming up to whatever has the focus; true when its default was prevented. */
export function key(name: string, { shift = false, repeat = false, ctrl = false }: KeyOptions = {}): boolean {
  const options = { key: name, shiftKey: shift, ctrlKey: ctrl, repeat, bubbles: true, cancelable: true };
  const target = document.activeElement ?? document.body;
  const down = new KeyboardEvent('keydown', options);
  act(() => {
    target.dispatchEvent(down);
    target.dispatchEvent(new KeyboardEvent('keyup', options));
  });
  return down.defaultPrevented;
}
