/** What the kiosk is doing: one mode at a time, each with the same members. A new mode is a new file in this folder. */
import type { Channel, Command } from '../../domain/command';
import type { Loft } from '../../domain/loft';
import type { Result } from '../../domain/result';
import type { Sighting } from '../../domain/sighting';
import type { ScreenName } from '../../screens/contract/app-view';
import type { VoiceSample } from '@stowcall/web-speech/core';
import type { ReadTrouble } from '../enrol/patient-sample';
import type { Scene } from './scene';

export interface Mode {
  readonly screen: ScreenName;
  /** What is drawn, said and listened for now; null where what is drawn stays. */
  scene(): Scene | null;
  /** A command by voice, touch, key or card. None comes while a PIN is asked for. */
  command(command: Command, channel: Channel): void;
  /** Something was scanned. A command card comes as its command, except in a pack, which records every scan. */
  sighted(sighting: Sighting): void;
  /** Somebody wants to go back: ends what was going on, if it may be left. */
  leave(): void;
  /** The loft's files have changed. Absent where nothing depends on them; then they are not read. */
  files?(loft: Loft): void;
  /** The code of a data card or log book page was read. Absent where such a paper lies in view by chance. */
  paper?(text: string): void;
  /** What came of a line that was read aloud. */
  sampled?(sample: Result<VoiceSample, ReadTrouble>): void;
}

/** For a mode in which nothing is commanded, or nothing scanned. */
export const IGNORED = (): void => undefined;
