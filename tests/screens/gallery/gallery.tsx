/** Shows one fixture: `?view=stage-stow&strip=listening`. For looking at, and for the accessibility check. */
import { createRoot } from 'react-dom/client';
import type { Acts } from '../../../src/packing/app-view';
import { App } from '../../../src/screens/App';
import { fixturesAt, STRIPS } from '../fixtures';

const NO_ACTS: Acts = {
  command: (command, channel) => {
    document.documentElement.dataset['command'] = JSON.stringify({ command, channel });
  },
  rehearse: () => undefined,
  showLicences: () => undefined,
  leave: () => undefined,
  retry: () => undefined,
  print: () => window.print(),
};

const asked = new URLSearchParams(location.search);
const view = fixturesAt(Date.now())[asked.get('view') ?? 'start'];
const strip = STRIPS[asked.get('strip') ?? 'listening'];
const root = document.getElementById('kiosk');
if (view !== undefined && strip !== undefined && root !== null) {
  createRoot(root).render(<App view={view} strip={strip} level={0.42} acts={NO_ACTS} cameraRef={() => undefined} />);
}
