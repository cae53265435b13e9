/** The status bar at the foot of every screen. */

/** What ear, voice and camera are doing, and what does not work. */
export interface StatusBarView {
  readonly ear: 'loading' | 'listening' | 'closed' | 'off';
  readonly speaking: boolean;
  readonly camera: 'on' | 'off' | 'failed';
  /** The last thing heard, or that nothing was: "Not heard. Say it again, or press." */
  readonly heard: string | null;
  /** Microphone, camera or voice trouble, in a plain sentence with what still works; stays until mended. */
  readonly trouble: readonly string[];
}
