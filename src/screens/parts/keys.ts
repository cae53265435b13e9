/**
 * Which key gives which command. Function keys, because keyboard-style scanners send letters, digits and Enter;
 * each command has one key of its own everywhere, so that hands can learn it.
 */
import { COMMAND_NAMES, type CommandName } from '../../domain/command';

export interface CommandKey {
  /** As `KeyboardEvent.key` gives it. */
  readonly key: string;
  readonly shift: boolean;
}

const plain = (key: string): CommandKey => ({ key, shift: false });
const shifted = (key: string): CommandKey => ({ key, shift: true });

/**
 * F5 reloads a page where nobody prevents it, so it has a command that a reload gives anyway; shifted F5 likewise
 * ends what is going on. Shifted F10 opens a menu in browsers and is left alone. Verdicts need two fingers.
 */
export const COMMAND_KEYS: Readonly<Record<CommandName, CommandKey>> = {
  stageComplete: plain('F1'),
  affirm: plain('F2'),
  negative: plain('F3'),
  count: plain('F4'),
  sayAgain: plain('F5'),
  stow: plain('F6'),
  measured: plain('F7'),
  itemPlaced: plain('F8'),
  standBy: plain('F9'),
  callInspector: plain('F10'),
  whatRemains: plain('F11'),
  correction: plain('F12'),
  next: shifted('F1'),
  goToStage: shifted('F2'),
  finding: shifted('F3'),
  readList: plain('Insert'),
  nothingFound: plain('Home'),
  finish: shifted('F4'),
  stopAndTag: shifted('F5'),
  reopenStage: plain('End'),
  itemsSeen: shifted('Insert'),
  cardPlaced: shifted('Home'),
  returnHold: shifted('F6'),
  releaseHold: shifted('F7'),
  itemRemoved: shifted('F8'),
  resume: shifted('F9'),
  slower: shifted('F11'),
  faster: shifted('F12'),
};

/** "Shift F4", as the control shows it, and "Ins", as the key itself is marked. */
export function keyLabel(name: CommandName): string {
  const { key, shift } = COMMAND_KEYS[name];
  const cap = key === 'Insert' ? 'Ins' : key;
  return shift ? `Shift ${cap}` : cap;
}

/** "Shift+F4", as `aria-keyshortcuts` wants it. */
export function keyShortcut(name: CommandName): string {
  const { key, shift } = COMMAND_KEYS[name];
  return shift ? `Shift+${key}` : key;
}

/** The command of a key press; null when the key is none of ours. */
export function commandForKey(key: string, shift: boolean): CommandName | null {
  return COMMAND_NAMES.find((name) => COMMAND_KEYS[name].key === key && COMMAND_KEYS[name].shift === shift) ?? null;
}
