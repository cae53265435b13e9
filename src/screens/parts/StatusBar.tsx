/** The strip at the foot of every screen: what ear, voice and camera do, and what is wrong with them. */
import { useContext, type ReactElement } from 'react';
import type { VoiceStrip } from '../contract/app-view';
import { LiveLevel } from './live-level';
import { CameraMark, CautionMark, EarClosedMark, EarOpenMark, PendingMark, SpeakingMark } from './Shapes';

interface StripProps {
  readonly strip: VoiceStrip;
}

const CAMERA: Readonly<Record<VoiceStrip['camera'], string>> = {
  on: 'Camera on',
  off: 'Camera off',
  failed: 'Camera failed',
};

function earWords({ ear, speaking }: VoiceStrip): string {
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

const EAR_MARKS: Readonly<Record<VoiceStrip['ear'], () => ReactElement>> = {
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
export function Strip({ strip }: StripProps): ReactElement {
  const EarMark = EAR_MARKS[strip.ear];
  return (
    <footer className="strip">
      {strip.trouble.length === 0 ? null : (
        <ul className="strip-trouble" aria-label="Trouble">
          {strip.trouble.map((text, index) => (
            <li key={index}>
              <CautionMark /> {text}
            </li>
          ))}
        </ul>
      )}
      <div className="strip-row">
        <div className={`strip-ear strip-ear-${strip.ear}`}>
          <EarMark /> <span>{earWords(strip)}</span>
        </div>
        <LevelBar />
        <p className="strip-heard">
          <span className="strip-caption">Last heard</span> {strip.heard ?? 'nothing yet'}
        </p>
        <p className="strip-part">
          <SpeakingMark /> {strip.speaking ? 'Speaking' : 'Silent'}
        </p>
        <p className="strip-part">
          <CameraMark /> {CAMERA[strip.camera]}
        </p>
      </div>
    </footer>
  );
}
