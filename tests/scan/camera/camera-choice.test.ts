/** Which camera was chosen, and that a browser which keeps nothing does not lose the choice while the page is open. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { rememberCamera } from '../../../src/scan/camera/camera-choice';

afterEach(() => vi.unstubAllGlobals());

describe('the choice of a camera', () => {
  it('is none at first, and is kept for the next start', () => {
    const kept = new Map<string, string>();
    vi.stubGlobal('localStorage', {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
    });
    const first = rememberCamera();
    expect(first.chosen()).toBeNull();
    first.choose('bench');
    expect(first.chosen()).toBe('bench');
    expect(rememberCamera().chosen()).toBe('bench');
  });

  it('holds until the page is closed where the browser keeps nothing', () => {
    const denied = () => {
      throw new DOMException('denied', 'SecurityError');
    };
    vi.stubGlobal('localStorage', { getItem: denied, setItem: denied });
    const camera = rememberCamera();
    camera.choose('bench');
    expect(camera.chosen()).toBe('bench');
    expect(rememberCamera().chosen()).toBeNull();
  });
});
