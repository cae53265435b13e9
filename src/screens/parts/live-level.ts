/** The microphone's level, ten times a second: only what draws it takes part, so that nothing else is drawn again. */
import { createContext } from 'react';

/** From 0 to 1. */
export const LiveLevel = createContext(0);
