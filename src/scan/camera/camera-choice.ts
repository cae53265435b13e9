/** Which of several cameras looks at the labels: chosen once by a person, and kept in this browser. */

const KEY = 'stowcall-camera';

export interface CameraMemory {
  /** The camera that was chosen; null where none was. */
  chosen(): string | null;
  choose(deviceId: string): void;
}

/** Where the browser keeps nothing, the choice holds until the page is closed. */
export function rememberCamera(): CameraMemory {
  let now = stored();
  return {
    chosen: () => now,
    choose: (deviceId) => {
      now = deviceId;
      try {
        localStorage.setItem(KEY, deviceId);
      } catch {
        // Said above.
      }
    },
  };
}

function stored(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}
