/** Writes the kiosk's state on the page's root element, for style sheets, benches and browser tests. */
import type { AppView } from '../screens/contract/app-view';
import type { Kiosk } from './kiosk-face';

/** The name of what is shown: for a pack, the pack's own screen. */
function screenName(view: AppView): string {
  return view.screen === 'pack' ? view.view.detail.screen : view.screen;
}

function promptKey(view: AppView): string {
  if (view.screen === 'pack') return view.view.prompt.key;
  if (view.screen === 'rehearsal') return view.view.prompt.key;
  if (view.screen === 'tags') return view.tags.prompt.key;
  if (view.screen === 'enrol') return view.enrol.prompt.key;
  return view.screen === 'start' ? view.start.prompt.key : '';
}

/** Keeps `data-screen`, `data-prompt`, `data-read-back`, `data-ear`, `data-speaking` and `data-checks` true. */
export function showState(root: HTMLElement, kiosk: Kiosk): void {
  const draw = (): void => {
    const view = kiosk.view.get();
    const statusBar = kiosk.statusBar.get();
    root.dataset['screen'] = screenName(view);
    root.dataset['prompt'] = promptKey(view);
    root.dataset['readBack'] = view.screen === 'pack' ? (view.view.readBack?.show ?? '') : '';
    root.dataset['ear'] = statusBar.ear;
    root.dataset['speaking'] = String(statusBar.speaking);
    if (view.screen === 'start') root.dataset['checks'] = view.start.checks.map(({ state }) => state).join(' ');
  };
  kiosk.view.subscribe(draw);
  kiosk.statusBar.subscribe(draw);
  draw();
}
