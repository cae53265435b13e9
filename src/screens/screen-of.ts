/** What a screen of the kiosk is: a component for the eye, and words for assistive technology. */
import type { ReactElement } from 'react';
import type { Acts } from './contract/acts';
import type { ScreenName, ViewOf } from './contract/app-view';
import type { Notice, Prompt } from './contract/pack-view';
import type { PinView } from './contract/pin-view';
import type { StatusBarView } from './contract/status-bar-view';
import type { CameraRef } from './parts/CameraPicture';

/** What every screen is given beside its view. */
export interface Surroundings {
  readonly camera: StatusBarView['camera'];
  /** Closed on every screen that does not show it, so that those are not drawn again for it. */
  readonly ear: StatusBarView['ear'];
  readonly acts: Acts;
  readonly cameraRef: CameraRef;
  readonly cameraHint: string | null;
}

export interface ScreenProps<S extends ScreenName> extends Surroundings {
  readonly view: ViewOf<S>;
}

/** What has changed, for assistive technology: `urgent` at once, `calm` when it is its turn. */
export interface Announcement {
  readonly urgent: string;
  readonly calm: string;
}

export interface ScreenOf<S extends ScreenName> {
  readonly Screen: (props: ScreenProps<S>) => ReactElement;
  readonly announce: (view: ViewOf<S>) => Announcement;
}

export const SILENT: Announcement = { urgent: '', calm: '' };

/** A prompt with what stands beside it: refusals are urgent. */
export function announcePrompt(prompt: Prompt, notice: Notice | null, readBack: string | null = null): Announcement {
  const refusal = notice !== null && notice.tone === 'refusal' ? `Refused. ${notice.text}` : '';
  const other = notice !== null && notice.tone !== 'refusal' ? notice.text : '';
  return { urgent: refusal, calm: [other, readBack ?? '', prompt.show].filter((text) => text !== '').join(' ') };
}

export function announcePin({ person }: PinView): Announcement {
  return { urgent: '', calm: `${person}: enter your PIN on the pad.` };
}
