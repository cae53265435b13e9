/** The camera itself: asked for, chosen, watched; and what is wrong when it cannot be had. */
import { ok, refused } from '../../domain/result';
import type { Refused, Result } from '../../domain/result';
import type { SightingTrouble } from '../sighting';

/** Names of the errors of `getUserMedia` (W3C Media Capture and Streams, 10.2). */
const TROUBLES: Readonly<Record<string, readonly [SightingTrouble, string]>> = {
  NotAllowedError: ['denied', 'The camera is not allowed. Allow it for this page.'],
  SecurityError: ['denied', 'The camera is not allowed on this page. Allow it in the browser.'],
  NotFoundError: ['absent', 'No camera is connected. Connect one.'],
  OverconstrainedError: ['absent', 'No camera is connected that gives such a picture. Connect another one.'],
  NotReadableError: ['absent', 'The camera is in use by another program. Close that program.'],
  AbortError: ['absent', 'The camera did not start. Unplug it and connect it again.'],
};

/** What an error of `getUserMedia` means. */
function cameraTrouble(error: unknown): Refused<SightingTrouble> {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  const [trouble, detail] = TROUBLES[name] ?? ['absent', 'The camera did not start. Unplug it and connect it again.'];
  return refused(trouble, detail);
}

/**
 * Asks for the camera; `deviceId` null takes one that looks away from the user where there is a choice. Where the
 * chosen one is not connected another is taken: a kiosk that sees nothing is of less use, and the start screen names it.
 */
export async function openCamera(deviceId: string | null): Promise<Result<MediaStream, SightingTrouble>> {
  // Absent on pages that are not served from a secure origin, whatever the types say.
  const devices = navigator.mediaDevices as MediaDevices | undefined;
  if (devices === undefined) return refused('absent', 'This browser gives the page no camera.');
  const size = { width: { ideal: 1280 }, height: { ideal: 720 } };
  const which = deviceId === null ? { facingMode: { ideal: 'environment' } } : { deviceId: { exact: deviceId } };
  try {
    return ok(await devices.getUserMedia({ video: { ...size, ...which }, audio: false }));
  } catch (error) {
    if (deviceId !== null && error instanceof Error && error.name === 'OverconstrainedError') return openCamera(null);
    return cameraTrouble(error);
  }
}

export interface CameraChoice {
  readonly deviceId: string;
  readonly label: string;
}

/** The cameras that are connected. Labels are empty until the camera was allowed once. */
export async function listCameras(): Promise<readonly CameraChoice[]> {
  const media = navigator.mediaDevices as MediaDevices | undefined;
  const devices = (await media?.enumerateDevices()) ?? [];
  return devices.filter(({ kind }) => kind === 'videoinput').map(({ deviceId, label }) => ({ deviceId, label }));
}

/**
 * Switches the camera's own light on, where it has one (W3C MediaStream Image Capture: `torch`). It goes out with the
 * camera. Few cameras of a table have one; that none is there is no trouble.
 */
export function lightUp(stream: MediaStream | undefined): void {
  const track = stream?.getVideoTracks()[0];
  const able = track?.getCapabilities() as { readonly torch?: boolean } | undefined;
  if (track === undefined || able?.torch !== true) return;
  void track.applyConstraints({ advanced: [{ torch: true } as MediaTrackConstraintSet] }).catch(() => undefined);
}
