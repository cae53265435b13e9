/** Starts recogniser, voice, camera and scanner, keeps the self-check true, and tells each new trouble once. */
import type { Part, SelfCheckLine } from '../../screens/contract/start-view';
import type { KioskParts } from '../parts';
import {
  firstChecks,
  sayHearingTrouble,
  saySightingTrouble,
  saySpeakingTrouble,
  withCheck,
  withUntried,
} from './self-check';
import { watchable, type Watchable } from '../watchable';

export interface Devices {
  readonly checks: Watchable<readonly SelfCheckLine[]>;
  /** Starts what is not working yet; resolves when each has answered. */
  prepare(): Promise<void>;
  /** Ends the camera and starts it anew, when another one was chosen. */
  restartCamera(): Promise<void>;
  /** Storage is opened by the kiosk, which tells the outcome here. */
  report(part: Part, failure: string | null): void;
}

export type DeviceParts = Pick<KioskParts, 'ear' | 'mouth' | 'camera' | 'wedge'>;

/** `onTrouble` gets the sentence of each new trouble, to be spoken beside the screen. */
export function createDevices(parts: DeviceParts, onTrouble: (text: string) => void): Devices {
  const checks = watchable(firstChecks());
  const working = new Set<Part>();

  const report = (part: Part, failure: string | null): void => {
    if (failure === null) working.add(part);
    else working.delete(part);
    checks.set(withCheck(checks.get(), part, failure));
  };

  const prepareEar = async (): Promise<void> => {
    if (working.has('microphone') && working.has('recogniser')) return;
    const ready = await parts.ear.prepare();
    if (ready.ok) {
      report('recogniser', null);
      report('microphone', null);
      return;
    }
    const { part, text } = sayHearingTrouble(ready.reason);
    report(part, text);
    // The recogniser is started first: where it fails nobody knows about the microphone, and where the microphone fails
    // the recogniser has started.
    if (part === 'microphone') {
      report('recogniser', null);
      return;
    }
    working.delete('microphone');
    checks.set(withUntried(checks.get(), 'microphone'));
  };

  const prepareMouth = async (): Promise<void> => {
    if (working.has('voice')) return;
    const ready = await parts.mouth.prepare();
    report('voice', ready.ok ? null : saySpeakingTrouble(ready.reason));
  };

  const prepareCamera = async (): Promise<void> => {
    if (working.has('camera')) return;
    const ready = await parts.camera.start();
    report('camera', ready.ok ? null : saySightingTrouble(ready.reason));
  };

  parts.ear.onTrouble((trouble) => {
    const { part, text } = sayHearingTrouble(trouble);
    report(part, text);
    onTrouble(text);
  });
  parts.camera.onTrouble((trouble) => {
    const text = saySightingTrouble(trouble);
    report('camera', text);
    onTrouble(text);
  });

  return {
    checks,
    report,
    restartCamera: async () => {
      parts.camera.stop();
      working.delete('camera');
      await prepareCamera();
    },
    prepare: async () => {
      await Promise.all([prepareEar(), prepareMouth(), prepareCamera(), parts.wedge.start()]);
    },
  };
}
