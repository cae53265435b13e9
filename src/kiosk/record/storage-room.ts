/** How much room the browser gives, and whether to warn of it: long before anything is full. */

export interface Room {
  readonly usedBytes: number;
  readonly quotaBytes: number;
}

/** From this part of the quota on, or with less room than this left, it is said. */
const PART = 0.5;
const LEAST_LEFT = 250_000_000;

/** What the browser says; null where it cannot be asked. */
export async function askRoom(): Promise<Room | null> {
  try {
    const { usage, quota } = await navigator.storage.estimate();
    return usage === undefined || quota === undefined ? null : { usedBytes: usage, quotaBytes: quota };
  } catch {
    return null;
  }
}

/** A sentence when the room will not last; null while there is plenty. */
export function roomWarning(room: Room | null): string | null {
  if (room === null) return null;
  const left = room.quotaBytes - room.usedBytes;
  if (room.usedBytes < PART * room.quotaBytes && left >= LEAST_LEFT) return null;
  return `Only ${megabytes(Math.max(0, left))} of storage are left. Free some room on this computer, or ask the lead, before it is full.`;
}

/** "1,234 MB". */
export function megabytes(bytes: number): string {
  return `${Math.round(bytes / 1_000_000).toLocaleString('en')} MB`;
}
