/** The start screen: what to do first, whether every part of the kiosk works, and which procedures can be heard. */
import type { Prompt } from './pack-view';

export const PARTS = ['microphone', 'camera', 'voice', 'recogniser', 'storage'] as const;
export type Part = (typeof PARTS)[number];

export interface SelfCheckLine {
  readonly part: Part;
  /** `untried`: another part must work before this one can be tried. */
  readonly state: 'checking' | 'works' | 'failed' | 'untried';
  /** Plain sentence: what is wrong and what still works without it; empty when it works or is being checked. */
  readonly detail: string;
}

export interface ProcedureChoice {
  readonly id: string;
  readonly title: string;
  readonly revision: string;
  readonly stages: number;
  readonly holds: number;
  readonly demonstration?: boolean;
}

/** A loft file that was turned away at load, with the place in it. */
export interface RefusedFile {
  readonly file: string;
  readonly line: number | null;
  readonly reason: string;
}

/** Several cameras are connected, and one of them is used. */
export interface CamerasView {
  /** Its name as the browser tells it; null while none runs. */
  readonly used: string | null;
  readonly count: number;
}

export interface StartView {
  readonly loft: string;
  readonly table: string;
  readonly checks: readonly SelfCheckLine[];
  readonly procedures: readonly ProcedureChoice[];
  readonly refusedFiles: readonly RefusedFile[];
  readonly prompt: Prompt;
  readonly notice: string | null;
  /** Absent or null where there is no choice of camera. */
  readonly cameras?: CamerasView | null;
  /** Whether a voice can be kept here. */
  readonly teachesVoice?: boolean;
  /** Whether any procedure of the loft is only for demonstration. */
  readonly demonstration?: boolean;
}
