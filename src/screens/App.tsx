/** What the kiosk shows: one screen for what is true now, the status bar below it, and the voice for readers of screens. */
import { memo, useEffect, useRef, type ReactElement } from 'react';
import type { Acts } from './contract/acts';
import type { AppView } from './contract/app-view';
import type { PinView } from './contract/pin-view';
import type { StatusBarView } from './contract/status-bar-view';
import { Announcer } from './parts/Announcer';
import type { CameraRef } from './parts/CameraPicture';
import { EnrolScreen } from './enrol/EnrolScreen';
import { FaultScreen } from './start/FaultScreen';
import { LiveLevel } from './parts/live-level';
import { LicencesScreen } from './start/LicencesScreen';
import { LoadingScreen } from './start/LoadingScreen';
import { PackScreen } from './pack/PackScreen';
import { PinScreen } from './hold/PinScreen';
import { RecordsScreen } from './records/RecordsScreen';
import { RehearsalScreen } from './learn/RehearsalScreen';
import { SecondTabScreen } from './start/SecondTabScreen';
import { StartScreen } from './start/StartScreen';
import { TagsScreen } from './records/TagsScreen';
import { StatusBar } from './parts/StatusBar';
import './styles/styles';
import { useSettled } from './parts/use-settled';

export interface AppProps {
  readonly view: AppView;
  readonly statusBar: StatusBarView;
  /** Live microphone level, 0 to 1. */
  readonly level: number;
  readonly acts: Acts;
  /** Gets the small live picture's element while a scan is wanted; must stay the same function. */
  readonly cameraRef: CameraRef;
  /** What would help the camera to read what is held before it, in words; null for nothing. */
  readonly cameraHint?: string | null;
}

interface ScreenProps {
  readonly view: AppView;
  readonly camera: StatusBarView['camera'];
  /** Closed on every screen that does not show it, so that those are not drawn again for it. */
  readonly ear: StatusBarView['ear'];
  readonly acts: Acts;
  readonly cameraRef: CameraRef;
  readonly cameraHint: string | null;
}

type PinnedView = Extract<AppView, { screen: 'pack' | 'tags' | 'records' }>;

function hasPin(view: PinnedView): view is PinnedView & { readonly pin: PinView } {
  return view.pin !== undefined && view.pin !== null;
}

function Screen({ view, camera, ear, acts, cameraRef, cameraHint }: ScreenProps): ReactElement {
  switch (view.screen) {
    case 'loading':
      return <LoadingScreen text={view.text} />;
    case 'start':
      return <StartScreen start={view.start} camera={camera} acts={acts} cameraRef={cameraRef} />;
    case 'secondTab':
      return <SecondTabScreen retry={() => acts.retry()} />;
    case 'pack':
      if (hasPin(view) && acts.pin !== undefined) return <PinScreen pin={view.pin} acts={acts.pin} />;
      return (
        <PackScreen
          view={view.view}
          proof={view.proof ?? null}
          filesTrouble={view.filesTrouble ?? null}
          camera={camera}
          acts={acts}
          cameraRef={cameraRef}
          cameraHint={cameraHint}
        />
      );
    case 'records':
      if (hasPin(view) && acts.pin !== undefined) return <PinScreen pin={view.pin} acts={acts.pin} />;
      return <RecordsScreen records={view.records} acts={acts} />;
    case 'rehearsal':
      return <RehearsalScreen view={view.view} acts={acts} />;
    case 'enrol':
      return (
        <EnrolScreen
          enrol={view.enrol}
          ear={ear}
          camera={camera}
          acts={acts}
          cameraRef={cameraRef}
          cameraHint={cameraHint}
        />
      );
    case 'tags':
      if (hasPin(view) && acts.pin !== undefined) return <PinScreen pin={view.pin} acts={acts.pin} />;
      return <TagsScreen tags={view.tags} camera={camera} acts={acts} cameraRef={cameraRef} cameraHint={cameraHint} />;
    case 'licences':
      return <LicencesScreen licences={view.licences} leave={() => acts.leave()} />;
    case 'fault':
      return <FaultScreen heading={view.heading} text={view.text} retry={() => acts.retry()} />;
  }
}

// Drawn again only when what they show has changed, and not for each change of the level.
const QuietScreen = memo(Screen);
const QuietStatusBar = memo(StatusBar);

/** The name of the screen, for noticing that another one has come. */
export function screenName(view: AppView): string {
  if ((view.screen === 'pack' || view.screen === 'tags' || view.screen === 'records') && hasPin(view))
    return `${view.screen} pin`;
  return view.screen === 'pack' ? `pack ${view.view.detail.screen}` : view.screen;
}

/** When a new screen has taken away whatever had the focus, the focus goes to its heading and not to nowhere. */
function useHeadingFocus(name: string): void {
  const first = useRef(true);
  useEffect(() => {
    const heading = document.querySelector('h1');
    if (!first.current && heading !== null && document.activeElement === document.body) {
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
    }
    first.current = false;
  }, [name]);
}

/** The whole page. */
export function App({ view: given, statusBar, level, acts, cameraRef, cameraHint = null }: AppProps): ReactElement {
  const view = useSettled(given);
  const ear = view.screen === 'enrol' ? statusBar.ear : 'closed';
  useHeadingFocus(screenName(view));
  return (
    <LiveLevel value={level}>
      <div className={`app app-${view.screen}`}>
        <Announcer view={view} />
        <QuietScreen
          view={view}
          camera={statusBar.camera}
          ear={ear}
          acts={acts}
          cameraRef={cameraRef}
          cameraHint={cameraHint}
        />
        <QuietStatusBar statusBar={statusBar} />
      </div>
    </LiveLevel>
  );
}
