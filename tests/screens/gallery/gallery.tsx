/**
 * Shows one fixture (`?view=stage-stow&status=listening`), or the demo packs' views one after another (`?real`). For
 * looking at, and for the accessibility check.
 */
import { createRoot } from 'react-dom/client';
import { flushSync } from 'react-dom';
import type { Acts } from '../../../src/screens/contract/acts';
import type { AppView } from '../../../src/screens/contract/app-view';
import type { StatusBarView } from '../../../src/screens/contract/status-bar-view';
import { App } from '../../../src/screens/App';
import { fixturesAt, STATUS_BARS } from '../fixtures';
import { NO_ACTS } from '../no-acts';
import type { RealView } from '../real-views';

const ACTS: Acts = {
  ...NO_ACTS,
  command: (command, channel) => {
    document.documentElement.dataset['command'] = JSON.stringify({ command, channel });
  },
  pin: { enter: () => undefined, cancel: () => undefined },
  print: () => window.print(),
};

declare global {
  interface Window {
    /** Shows one of the demo packs' views and gives its name; null after the last. */
    showReal?: (index: number) => string | null;
  }
}

const asked = new URLSearchParams(location.search);
const statusBar = STATUS_BARS[asked.get('status') ?? 'listening'];
const place = document.getElementById('kiosk');
if (statusBar === undefined || place === null) throw new Error('there is no such status bar, or no place to draw');
const root = createRoot(place);

function show(view: AppView, below: StatusBarView): void {
  flushSync(() => {
    root.render(<App view={view} statusBar={below} level={0.42} acts={ACTS} cameraRef={() => undefined} />);
  });
}

if (asked.has('real')) {
  const views = (await (await fetch('real-views.json')).json()) as readonly RealView[];
  window.showReal = (index) => {
    const real = views[index];
    if (real === undefined) return null;
    show(real.view, statusBar);
    return real.name;
  };
} else {
  const view = fixturesAt(Date.now())[asked.get('view') ?? 'start'];
  if (view !== undefined) show(view, statusBar);
}
