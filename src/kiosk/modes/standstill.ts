/** Nothing can be done: the kiosk is starting, or cannot go on. What is drawn stays, so whoever enters this draws it. */
import { IGNORED, type Mode } from './mode';

export function standstill(screen: 'loading' | 'fault'): Mode {
  return { screen, scene: () => null, command: IGNORED, sighted: IGNORED, leave: IGNORED };
}
