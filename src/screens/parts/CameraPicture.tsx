/** The small live picture of the camera, wherever a scan is wanted. */
import type { ReactElement } from 'react';
import type { StatusBarView } from '../contract/status-bar-view';
import { CameraMark } from './Shapes';

export type CameraRef = (video: HTMLVideoElement | null) => void;

interface CameraPictureProps {
  readonly camera: StatusBarView['camera'];
  readonly cameraRef: CameraRef;
  /** What is to be held before the camera. */
  readonly caption: string;
  /** What would help to read it; stands in the caption's place. */
  readonly hint?: string | null;
}

const WITHOUT = {
  on: null,
  off: 'The camera is off. Use the hand scanner.',
  failed: 'The camera does not work. Use the hand scanner.',
} as const;

/** Picture with the frame in which the label should lie; where there is no picture, what to use in its place. */
export function CameraPicture({ camera, cameraRef, caption, hint = null }: CameraPictureProps): ReactElement {
  const without = WITHOUT[camera];
  return (
    <figure className="camera">
      <div className="camera-frame">
        <video ref={cameraRef} muted autoPlay playsInline aria-label="Camera picture" />
        <svg className="camera-corners" viewBox="0 0 160 90" aria-hidden="true" focusable="false">
          <path d="M14 26V12h18M128 12h18v14M146 64v14h-18M32 78H14V64" />
        </svg>
        {without === null ? null : <p className="camera-without">{without}</p>}
      </div>
      {without === null ? (
        <figcaption>
          <CameraMark /> {hint ?? caption}
        </figcaption>
      ) : null}
    </figure>
  );
}
