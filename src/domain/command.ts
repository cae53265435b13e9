/** Everything that a person can tell the kiosk, however it is told: voice, touch, key or command card. */
import type { CountNoun } from './procedure';
import type { Unit } from './quantity';

/** The names are also the public rule names of `grammars/commands.gram`. */
export const COMMAND_NAMES = [
  'stageComplete',
  'affirm',
  'negative',
  'sayAgain',
  'whatRemains',
  'standBy',
  'resume',
  'correction',
  'callInspector',
  'count',
  'stow',
  'measured',
  'itemPlaced',
  'itemRemoved',
  'releaseHold',
  'returnHold',
  'readList',
  'finding',
  'nothingFound',
  'goToStage',
  'reopenStage',
  'itemsSeen',
  'cardPlaced',
  'stopAndTag',
  'next',
  'slower',
  'faster',
  'finish',
] as const;
export type CommandName = (typeof COMMAND_NAMES)[number];

type Plain = Exclude<CommandName, 'count' | 'measured' | 'finding' | 'goToStage' | 'reopenStage'>;

export type Command =
  | { readonly name: Plain }
  /** "five stows": how many more were counted, of what. */
  | { readonly name: 'count'; readonly count: number; readonly noun: CountNoun }
  /** "three seven inches": null unit where none was said; the stage's unit is then meant. Feet and inches arrive as inches. */
  | { readonly name: 'measured'; readonly value: number; readonly unit: Unit | null }
  /** "finding two": one-based number in the list that is shown. A note can only be written, by hand. */
  | { readonly name: 'finding'; readonly number: number; readonly note?: string | undefined }
  /** "stage four": one-based stage number. */
  | { readonly name: 'goToStage'; readonly stage: number }
  /** "reopen stage four": the packer takes back everything from there on. */
  | { readonly name: 'reopenStage'; readonly stage: number };

export const CHANNELS = ['voice', 'touch', 'key', 'card'] as const;
export type Channel = (typeof CHANNELS)[number];
