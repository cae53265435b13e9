/** Chooses the largest type size at which a column's whole content is visible without scrolling. */
import { useLayoutEffect, useRef, type RefObject } from 'react';

/** `data-fit` levels of `tokens.css`: 0 is the largest; at the last one the column scrolls as the final resort. */
export const FIT_LEVELS = 7;

function fit(element: HTMLElement): void {
  for (let level = 0; level < FIT_LEVELS; level += 1) {
    element.dataset['fit'] = String(level);
    if (element.scrollHeight <= element.clientHeight + 1) {
      element.removeAttribute('tabindex');
      return;
    }
  }
  // It has to scroll, so keys must be able to reach it.
  element.setAttribute('tabindex', '0');
}

/** Attach the ref to the column. It is fitted after every drawing and whenever its size changes. */
export function useFit<T extends HTMLElement>(): RefObject<T | null> {
  const ref = useRef<T>(null);
  useLayoutEffect(() => {
    if (ref.current !== null) fit(ref.current);
  });
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null || typeof ResizeObserver === 'undefined') return;
    const observer = new ResizeObserver(() => fit(element));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return ref;
}
