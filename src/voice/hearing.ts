/** Port: the ear. Legal commands go in; what was heard, or that nothing was, comes out. */
import type { Command, CommandName } from '../domain/command';
import type { CountNoun } from '../domain/procedure';
import type { Result } from '../domain/result';
import type { Verdict } from '@stowcall/web-speech/core';

/** What may be said now. Only these phrases exist for the recogniser (invariant 4). */
export interface Vocabulary {
  readonly commands: readonly CommandName[];
  /** Narrows `count`, so that "five tools" cannot be heard at a stowing stage; empty = none. */
  readonly nouns: readonly CountNoun[];
}

/** What the recogniser heard, with the command that the words of a phrase mean. */
export type Heard =
  | (Extract<Verdict, { kind: 'heard' }> & { readonly command: Command; readonly msToDecision: number })
  | Exclude<Verdict, { kind: 'heard' }>;

export type HearingTrouble = 'denied' | 'absent' | 'unplugged' | 'engine' | 'model';

export interface HearingPort {
  /** Loads engine and model and opens the microphone. Safe to call again after trouble. */
  prepare(): Promise<Result<void, HearingTrouble>>;
  /** Opens the ear for exactly this vocabulary. */
  listen(vocabulary: Vocabulary): void;
  /** Closes the ear: what sounds now is thrown away (the kiosk speaks; invariant 3). */
  hush(): void;
  onHeard(listener: (heard: Heard) => void): () => void;
  /** Input level 0 to 1 about ten times a second, also while hushed, for the live level display. */
  onLevel(listener: (level: number) => void): () => void;
  onTrouble(listener: (trouble: HearingTrouble, detail: string) => void): () => void;
}
