/** Which of several cameras looks at the labels: chosen once by a person, and kept in this browser. */

const KEY = 'stowcall-camera';

/** The camera that was chosen; null where none was, or where the browser keeps nothing. */
export function chosenCamera(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

/** Keeps the choice. Where the browser keeps nothing it holds until the page is closed, since the camera runs on. */
export function chooseCamera(deviceId: string): void {
  try {
    localStorage.setItem(KEY, deviceId);
  } catch {
    // Said above.
  }
}
