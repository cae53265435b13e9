/** The status bar at the foot of every screen: what ear, voice and camera do, and what is wrong with them. */
import { useContext, type ReactElement } from 'react';
import type { StatusBarView } from '../contract/status-bar-view';
import { LiveLevel } from './live-level';
import { CameraMark, CautionMark, EarClosedMark, EarOpenMark, PendingMark, SpeakingMark } from './Shapes';

interface StatusBarProps {
  readonly statusBar: StatusBarView;
}

const CAMERA: Readonly<Record<StatusBarView['camera'], string>> = {
  on: 'Camera on',
  off: 'Camera off',
  failed: 'Camera failed',
};

function earWords({ ear, speaking }: StatusBarView): string {
  switch (ear) {
    case 'listening':
      return 'Listening';
    case 'closed':
      return speaking ? 'Ear closed while speaking' : 'Ear closed';
    case 'loading':
      return 'Ear starting';
    case 'off':
      return 'Ear off: use touch or keys';
  }
}

const EAR_MARKS: Readonly<Record<StatusBarView['ear'], () => ReactElement>> = {
  listening: EarOpenMark,
  closed: EarClosedMark,
  loading: PendingMark,
  off: EarClosedMark,
};

/** The microphone's level as a bar with a scale of ten. */
export function LevelBar(): ReactElement {
  const level = useContext(LiveLevel);
  const shown = Math.round(Math.min(1, Math.max(0, level)) * 100);
  return (
    <svg className="level" viewBox="0 0 100 10" preserveAspectRatio="none" role="img" aria-label="Microphone level">
      <rect className="level-back" width="100" height="10" />
      <rect className="level-now" width={shown} height="10" />
      <path className="level-marks" d="M10 0v10M20 0v10M30 0v10M40 0v10M50 0v10M60 0v10M70 0v10M80 0v10M90 0v10" />
    </svg>
  );
}

/** Always visible, on every screen. */
export function StatusBar({ statusBar }: StatusBarProps): ReactElement {
  const EarMark = EAR_MARKS[statusBar.ear];
  return (
    <footer className="status-bar">
      {statusBar.trouble.length === 0 ? null : (
        <ul className="status-bar-trouble" aria-label="Trouble">
          {statusBar.trouble.map((text, index) => (
            <li key={index}>
              <CautionMark /> {text}
            </li>
          ))}
        </ul>
      )}
      <div className="status-bar-row">
        <div className={`status-bar-ear status-bar-ear-${statusBar.ear}`}>
          <EarMark /> <span>{earWords(statusBar)}</span>
        </div>
        <LevelBar />
        <p className="status-bar-heard">
          <span className="status-bar-caption">Last heard</span> {statusBar.heard ?? 'nothing yet'}
        </p>
        <p className="status-bar-part">
          <SpeakingMark /> {statusBar.speaking ? 'Speaking' : 'Silent'}
        </p>
        <p className="status-bar-part">
          <CameraMark /> {CAMERA[statusBar.camera]}
        </p>
      </div>
    </footer>
  );
}
