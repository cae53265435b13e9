/** The acts that a person can do now: each with its control, its phrase, and what it leads to. One list serves both. */
import type { Channel, Command, CommandName } from '../../domain/command';
import type { Instant } from '../../domain/instant';
import { assert } from '../../domain/assert';
import type { Decision } from './decision';
import type { LegalCommand } from './view';

/** How and when a command came. */
export interface Said {
  readonly channel: Channel;
  readonly at: Instant;
}

export type CommandNamed<N extends CommandName> = Command & { readonly name: N };

export interface Act {
  readonly legal: LegalCommand;
  readonly take: (command: Command, said: Said) => Decision;
}

interface Wording {
  readonly label: string;
  readonly phrase: string;
}

/** Labels of the controls, and a phrase of `grammars/commands.gram` for each. */
export const WORDING: Readonly<Record<CommandName, Wording>> = {
  stageComplete: { label: 'Stage complete', phrase: 'stage complete' },
  affirm: { label: 'Affirm', phrase: 'affirm' },
  negative: { label: 'Negative', phrase: 'negative' },
  sayAgain: { label: 'Say again', phrase: 'say again' },
  whatRemains: { label: 'What remains', phrase: 'what remains' },
  standBy: { label: 'Stand by', phrase: 'stand by' },
  resume: { label: 'Resume', phrase: 'resume packing' },
  correction: { label: 'Correction', phrase: 'correction' },
  callInspector: { label: 'Call inspector', phrase: 'call inspector' },
  count: { label: 'Count', phrase: 'five stows' },
  stow: { label: 'Stow', phrase: 'stow' },
  measured: { label: 'Measured', phrase: 'three seven inches' },
  itemPlaced: { label: 'Item placed', phrase: 'item placed' },
  itemRemoved: { label: 'Item removed', phrase: 'item removed' },
  releaseHold: { label: 'Release hold', phrase: 'release hold' },
  returnHold: { label: 'Send back for rework', phrase: 'send back for rework' },
  readList: { label: 'Read the list', phrase: 'read the list' },
  finding: { label: 'Finding', phrase: 'finding two' },
  nothingFound: { label: 'Nothing found', phrase: 'nothing found' },
  goToStage: { label: 'Stage', phrase: 'go to stage four' },
  reopenStage: { label: 'Reopen stage', phrase: 'reopen stage four' },
  itemsSeen: { label: 'All items seen', phrase: 'all items seen' },
  cardPlaced: { label: 'Card in pocket', phrase: 'card in pocket' },
  stopAndTag: { label: 'Stop and tag', phrase: 'stop and tag' },
  next: { label: 'Next', phrase: 'next stage' },
  slower: { label: 'Slower', phrase: 'speak slower' },
  faster: { label: 'Faster', phrase: 'speak faster' },
  finish: { label: 'Finish', phrase: 'finish reading' },
};

/** What is said for a command, for prompts that ask for it. */
export function phraseOf(name: CommandName): string {
  return WORDING[name].phrase;
}

/** A legal command with its usual words, unless others fit better here. */
export function legalCommand(name: CommandName, differing: Partial<Omit<LegalCommand, 'name'>> = {}): LegalCommand {
  return { name, ...WORDING[name], input: { kind: 'press' }, main: false, ...differing };
}

function isNamed<N extends CommandName>(command: Command, name: N): command is CommandNamed<N> {
  return command.name === name;
}

/** Binds a command's name to what it leads to. */
export function act<N extends CommandName>(
  name: N,
  differing: Partial<Omit<LegalCommand, 'name'>>,
  take: (command: CommandNamed<N>, said: Said) => Decision,
): Act {
  return {
    legal: legalCommand(name, differing),
    take: (command, said) => {
      assert(isNamed(command, name), `${command.name} is handed to the act of its own name`);
      return take(command, said);
    },
  };
}

/** For the one expected act. */
export const MAIN = { main: true } as const;
