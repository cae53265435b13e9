/** What the kiosk shows: one screen for what is true now, the status bar below it, and live regions for screen readers. */
import { memo, useEffect, useRef, type ReactElement } from 'react';
import type { Acts } from './contract/acts';
import type { AppView, ScreenName, ViewOf } from './contract/app-view';
import type { PinView } from './contract/pin-view';
import type { StatusBarView } from './contract/status-bar-view';
import { PinScreen } from './hold/PinScreen';
import { Announcer } from './parts/Announcer';
import type { CameraRef } from './parts/CameraPicture';
import { LiveLevel } from './parts/live-level';
import { StatusBar } from './parts/StatusBar';
import { useSettled } from './parts/use-settled';
import type { Surroundings } from './screen-of';
import { SCREENS } from './screens';
import './styles/styles';

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

interface ScreenProps extends Surroundings {
  readonly view: AppView;
}

/** The pad for a PIN that lies over the screen; null for none. */
function pinOf(view: AppView): PinView | null {
  return 'pin' in view ? (view.pin ?? null) : null;
}

/** Generic, so that the view and the screen of one name belong together. */
function draw<S extends ScreenName>(screen: S, view: ViewOf<S>, rest: Surroundings): ReactElement {
  const { Screen } = SCREENS[screen];
  return <Screen view={view} {...rest} />;
}

function Screen({ view, ...rest }: ScreenProps): ReactElement {
  const pin = pinOf(view);
  if (pin !== null && rest.acts.pin !== undefined) return <PinScreen pin={pin} acts={rest.acts.pin} />;
  return draw(view.screen, view, rest);
}

// Drawn again only when what they show has changed, and not for each change of the level.
const QuietScreen = memo(Screen);
const QuietStatusBar = memo(StatusBar);

/** The name of what is shown, for noticing that something else has come. */
function screenName(view: AppView): string {
  if (pinOf(view) !== null) return `${view.screen} pin`;
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
