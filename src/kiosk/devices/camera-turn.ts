/** Chooses between several cameras: each touch takes the next one, and the person sees its picture. */
import type { CamerasView } from '../../screens/contract/start-view';

export interface CameraChooser {
  list(): Promise<readonly { readonly deviceId: string; readonly label: string }[]>;
  /** The camera that runs now; null for none. */
  used(): string | null;
  /** The camera that was chosen last, whether it works or not; null where none was. */
  chosen(): string | null;
  /** Kept; it counts from the next start of the camera on. */
  choose(deviceId: string): void;
}

export interface CameraTurn {
  /** Null where there is no choice. */
  view(): CamerasView | null;
  /** Finds out which cameras are connected. */
  look(): Promise<void>;
  /** Takes the one after that which is used, and the first after the last. */
  next(): Promise<void>;
}

/** `restart` starts the camera anew and draws what came of it. */
export function createCameraTurn(chooser: CameraChooser, restart: () => Promise<void>): CameraTurn {
  let cameras: Awaited<ReturnType<CameraChooser['list']>> = [];
  let turning = false;
  const look = async (): Promise<void> => {
    // Without a list there is no choice; that the camera itself works or not is told elsewhere.
    cameras = await chooser.list().catch(() => []);
  };
  return {
    look,
    view() {
      if (cameras.length < 2) return null;
      const used = chooser.used();
      const camera = cameras.find(({ deviceId }) => deviceId === used);
      const label = camera === undefined || camera.label === '' ? null : camera.label;
      return { used: label, count: cameras.length };
    },
    async next() {
      if (turning) return;
      turning = true;
      try {
        await look();
        // Where none runs, the turn goes on from the one that was chosen and did not start.
        const from = chooser.used() ?? chooser.chosen();
        const at = cameras.findIndex(({ deviceId }) => deviceId === from);
        const camera = cameras[(at + 1) % Math.max(1, cameras.length)];
        if (camera !== undefined) {
          chooser.choose(camera.deviceId);
          await restart();
        }
      } catch {
        // That a camera does not start is told by the self-check; the next turn must be possible all the same.
      } finally {
        turning = false;
      }
    },
  };
}

/** The same where there may be no choice of cameras; null then. */
export function cameraTurnOf(chooser: CameraChooser | undefined, restart: () => Promise<void>): CameraTurn | null {
  return chooser === undefined ? null : createCameraTurn(chooser, restart);
}
