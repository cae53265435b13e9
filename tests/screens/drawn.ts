/** Screens drawn without a browser: their markup, and what a person can read in it. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import type { AppView } from '../../src/screens/contract/app-view';
import type { StatusBarView } from '../../src/screens/contract/status-bar-view';
import type { LegalCommand, Prompt } from '../../src/packing/machine/view';
import { App } from '../../src/screens/App';
import { STATUS_BARS } from './fixtures';
import { NO_ACTS } from './no-acts';

export function statusBarOf(name: string): StatusBarView {
  const statusBar = STATUS_BARS[name];
  if (statusBar === undefined) throw new Error(`no status bar ${name}`);
  return statusBar;
}

/** Markup of the whole page. */
export function draw(view: AppView, statusBar = statusBarOf('listening')): string {
  const cameraRef = (): void => undefined;
  return renderToStaticMarkup(createElement(App, { view, statusBar, level: 0.5, acts: NO_ACTS, cameraRef }));
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#x27': "'", rsquo: '’' };

/** The text a sighted person can read: without the live regions and other things off the screen. */
export function readable(markup: string): string {
  return markup
    .replace(/<div class="unseen">.*?<\/div><\/div>/s, '')
    .replace(/<span class="unseen">.*?<\/span>/gs, '')
    .replace(/<\/(p|li|h1|h2|div|dt|dd|td|th|button|figcaption|caption|pre|summary)>/g, ' ')
    .replace(/<br\/>/g, ' ')
    .replace(/<[^>]*>/g, '')
    .replace(/&([a-z0-9#]+);/g, (whole, name: string) => ENTITIES[name] ?? whole)
    .replace(/\s+/g, ' ')
    .trim();
}

export function promptOf(view: AppView): Prompt | null {
  if (view.screen === 'pack' || view.screen === 'rehearsal') return view.view.prompt;
  if (view.screen === 'enrol') return view.enrol.prompt;
  if (view.screen === 'tags') return view.tags.prompt;
  return view.screen === 'start' ? view.start.prompt : null;
}

export function legalOf(view: AppView): readonly LegalCommand[] {
  if (view.screen === 'enrol') return view.enrol.legal;
  if (view.screen === 'tags') return view.tags.legal;
  return view.screen === 'pack' || view.screen === 'rehearsal' ? view.view.legal : [];
}
