/** The time of day for countdowns that are only shown; what happens when time runs out is decided elsewhere. */
import { useEffect, useState } from 'react';

/** Milliseconds since the Unix epoch, renewed four times a second so that no second is skipped. */
export function useNow(): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 250);
    return () => clearInterval(timer);
  }, []);
  return now;
}
