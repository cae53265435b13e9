/** What the kiosk as a whole shows: the start screen, a pack, a rehearsal, or why it cannot go on. */
import type { Command } from '../domain/command';
import type { PackView, Prompt, RehearsalView } from './view';

export const PARTS = ['microphone', 'camera', 'voice', 'recogniser', 'storage'] as const;
export type Part = (typeof PARTS)[number];

export interface SelfCheckLine {
  readonly part: Part;
  readonly state: 'checking' | 'works' | 'failed';
  /** Plain sentence: what is wrong and what still works without it; empty when it works. */
  readonly detail: string;
}

export interface ProcedureChoice {
  readonly id: string;
  readonly title: string;
  readonly revision: string;
  readonly stages: number;
  readonly holds: number;
}

/** A loft file that was turned away at load, with the place in it. */
export interface RefusedFile {
  readonly file: string;
  readonly line: number | null;
  readonly reason: string;
}

export interface StartView {
  readonly loft: string;
  readonly table: string;
  readonly checks: readonly SelfCheckLine[];
  readonly procedures: readonly ProcedureChoice[];
  readonly refusedFiles: readonly RefusedFile[];
  readonly prompt: Prompt;
  readonly notice: string | null;
}

/** What the ear and the voice are doing, for the strip that is always visible. */
export interface VoiceStrip {
  readonly ear: 'loading' | 'listening' | 'closed' | 'off';
  readonly speaking: boolean;
  readonly camera: 'on' | 'off' | 'failed';
  /** The last thing heard, or that nothing was: "Not heard. Say it again, or press." */
  readonly heard: string | null;
  /** Microphone, camera or voice trouble, in a plain sentence with what still works; stays until mended. */
  readonly trouble: readonly string[];
}

export interface Licence {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly text: string;
}

export type AppView =
  | { readonly screen: 'loading'; readonly text: string }
  | { readonly screen: 'start'; readonly start: StartView }
  | { readonly screen: 'secondTab' }
  | { readonly screen: 'pack'; readonly view: PackView }
  | { readonly screen: 'rehearsal'; readonly view: RehearsalView }
  | { readonly screen: 'licences'; readonly licences: readonly Licence[] }
  /** Nothing can be recorded, so nothing may be packed. */
  | { readonly screen: 'fault'; readonly heading: string; readonly text: string };

/** Everything a screen can ask for. Screens call these and nothing else. */
export interface Acts {
  /** A touch control or key was used. */
  command(command: Command, channel: 'touch' | 'key'): void;
  rehearse(procedure: string): void;
  showLicences(): void;
  /** From rehearsal, licences or an ended pack back to the start. */
  leave(): void;
  retry(): void;
  print(): void;
}
