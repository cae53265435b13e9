/** Joins the real devices to the core and puts the kiosk on the page: the only place where a port meets a device. */
import { useCallback, useSyncExternalStore, type ReactElement } from 'react';
import { createRoot } from 'react-dom/client';
import { assert } from '../domain/assert';
import { createStore } from '../record/store/store';
import { takeTable, waitForTable } from '../record/store/table-lock';
import { rememberCamera } from '../scan/camera/camera-choice';
import { listCameras } from '../scan/camera/camera-stream';
import { createCameraScanner, type CameraScanner } from '../scan/camera/camera-scanner';
import type { Hint } from '../scan/camera/picture-hint';
import { createWedgeScanner } from '../scan/wedge/wedge-scanner';
import { App } from '../screens/App';
import { createEar } from '../voice/ear';
import { anyCommandIn } from '../voice/phrases/command-in-prompt';
import { measureDelay } from '../voice/loudspeaker/measure-delay';
import { createMouth } from '../voice/mouth';
import { createVoiceSampleStore } from '../voice/sample-store/sample-store';
import { now, newId, offsetAt } from './clock';
import { phrasesToRead } from './enrol/phrases-to-read';
import { createKiosk } from './kiosk';
import type { Kiosk } from './kiosk-face';
import { fetchLicences } from './licences';
import { loftReader } from './loft/loading';
import { watchVersions } from './new-version';
import { otherName } from './one-name';
import { phraseBook } from './phrases';
import { pinFits } from './pin/slow-hash';
import { composeRecords } from './record/compose-records';
import { showState } from './state-attributes';
import { watchable, type Watchable } from './watchable';

/** One kiosk has one table; the name is also that of its database. */
const TABLE = 'stowcall';
/** A database of its own, which nothing of the record reads. */
const VOICES = 'voices-of-stowcall';

/** Of one name, on the page's own timeline. */
const MOST_MARKS = 100;

/** Shown, not spoken: whoever holds a label looks at the picture, and a voice at each tremor would only disturb. */
const HINT_WORDS: Readonly<Record<Hint, string>> = {
  closer: 'Hold it closer',
  holdStill: 'Hold it still',
  moreLight: 'It needs more light',
};

interface KioskAppProps {
  readonly kiosk: Kiosk;
  readonly camera: CameraScanner;
  readonly hint: Watchable<Hint | null>;
}

function KioskApp({ kiosk, camera, hint }: KioskAppProps): ReactElement {
  const view = useSyncExternalStore(kiosk.view.subscribe, kiosk.view.get);
  const statusBar = useSyncExternalStore(kiosk.statusBar.subscribe, kiosk.statusBar.get);
  const help = useSyncExternalStore(hint.subscribe, hint.get);
  const level = useSyncExternalStore(kiosk.level.subscribe, kiosk.level.get);
  const cameraRef = useCallback(
    (video: HTMLVideoElement | null) => {
      if (video !== null) camera.attach(video);
    },
    [camera],
  );
  const cameraHint = help === null ? null : HINT_WORDS[help];
  return (
    <App
      view={view}
      statusBar={statusBar}
      level={level}
      acts={kiosk.acts}
      cameraRef={cameraRef}
      cameraHint={cameraHint}
    />
  );
}

/** The browser keeps every mark for ever: of each name only the last ones stay. */
function mark(name: string): void {
  const full = `stowcall:${name}`;
  if (performance.getEntriesByName(full).length >= MOST_MARKS) performance.clearMarks(full);
  performance.mark(full);
}

/** Starts everything in this document. The second page at one table waits until the first is gone. */
export function composeKiosk(document: Document): void {
  const base = new URL('/', document.baseURI).href;
  const { chosen, choose } = rememberCamera();
  const camera = createCameraScanner({
    engineUrl: `${base}engine/zxing_reader.wasm`,
    device: chosen,
    onFrame: ({ accepted }) => {
      if (accepted !== null) mark('accepted');
    },
  });
  const hint = watchable<Hint | null>(null);
  camera.onHint((next) => hint.set(next));
  const store = createStore({ name: TABLE });
  const book = phraseBook();
  const ear = createEar({ phraseBook: book, engineBase: `${base}engine/`, modelBase: `${base}engine/model/` });
  // No new version comes while a pack is open; should one come all the same, the pack keeps the page that it has.
  const reload = (): void => {
    if (kiosk.view.get().screen !== 'pack') location.reload();
  };
  const { serviceWorker: workers, locks } = navigator;
  const versions = 'serviceWorker' in navigator ? { versions: watchVersions({ workers, locks, reload }) } : {};
  const kiosk: Kiosk = createKiosk({
    ear,
    voices: { ear, sampleStore: createVoiceSampleStore({ name: VOICES }), phrases: phrasesToRead(book) },
    measureDelay: () => measureDelay(),
    mouth: createMouth(`${base}engine/flite.wasm`),
    camera,
    cameras: { list: listCameras, used: camera.used, chosen, choose },
    wedge: createWedgeScanner(window),
    ledger: store,
    records: (settings, onChange) => composeRecords(store, settings, onChange),
    now,
    offsetAt,
    nowMs: () => performance.now(),
    newId,
    loadLoft: loftReader(base, anyCommandIn(book)),
    loadLicences: () => fetchLicences(base),
    print: (paper) => {
      // The style sheet prints the paper that is named here, and no other.
      document.documentElement.dataset['paper'] = paper;
      window.print();
    },
    pinFits,
    ...versions,
    mark,
  });
  const place = document.getElementById('kiosk');
  assert(place !== null, 'the page has a place for the kiosk');
  showState(document.documentElement, kiosk);
  createRoot(place).render(<KioskApp kiosk={kiosk} camera={camera} hint={hint} />);
  const strange = otherName(location);
  if (strange !== null) return kiosk.view.set({ screen: 'fault', ...strange });
  watchSurroundings(kiosk);
  void begin(kiosk);
}

async function begin(kiosk: Kiosk): Promise<void> {
  // A page that loses its table while it runs must not go on as if it had it.
  const lost = (): void => location.reload();
  if ((await takeTable(TABLE, lost)) === 'taken') {
    kiosk.view.set({ screen: 'secondTab' });
    await waitForTable(TABLE, lost);
  }
  await kiosk.start();
}

/** Devices come and go, and a first touch allows sound: both are reasons to try again what did not work. */
function watchSurroundings(kiosk: Kiosk): void {
  // There is no mediaDevices on a page that is neither on localhost nor on https.
  if ('mediaDevices' in navigator) {
    navigator.mediaDevices.addEventListener('devicechange', () => void kiosk.devicesChanged());
  }
  window.addEventListener('pointerdown', () => void kiosk.recheck(), { once: true });
}
