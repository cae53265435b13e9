/** The only place where the kiosk reads a clock or makes an id; both go into the core on events (invariant 10). */
import type { Instant } from '../domain/instant';

/** The present moment with the table's own offset, so that its first ten characters are the date at the table. */
function instantOf(date: Date): Instant {
  const offset = -date.getTimezoneOffset();
  const local = new Date(date.getTime() + offset * 60_000).toISOString().slice(0, -1);
  const sign = offset < 0 ? '-' : '+';
  const size = Math.abs(offset);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${local}${sign}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** The offset that the zone of this computer has at that moment: it differs from that of now by daylight saving. */
export function offsetAt(at: Instant): string {
  return instantOf(new Date(at)).slice(-6);
}

export function now(): Instant {
  return instantOf(new Date());
}

/** An id that no other act or pack has. */
export function newId(): string {
  return crypto.randomUUID();
}
