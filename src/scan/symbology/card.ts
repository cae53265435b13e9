/** A command card's payload: `SC:` and a command's name, then its argument where it has one. */
import { assert, unreachable } from '../../domain/assert';
import { COMMAND_NAMES } from '../../domain/command';
import type { Command, CommandName } from '../../domain/command';
import { COUNT_NOUNS } from '../../domain/procedure';
import { UNITS } from '../../domain/quantity';
import { ok, refused } from '../../domain/result';
import type { Result } from '../../domain/result';

const PREFIX = 'SC:';
/** Whole numbers on a card have at most three digits, and no leading zero: one way to write each. */
const WHOLE = /^(0|[1-9]\d{0,2})$/;
/** Measured values have at most four digits before and six after the point; six hold every sixteenth exactly. */
const DECIMAL = /^(0|[1-9]\d{0,3})(\.\d{0,5}[1-9])?$/;

export type CardFault = 'card-unknown';

/** True when a payload claims to be a command card. */
export function looksLikeCard(payload: string): boolean {
  return payload.startsWith(PREFIX);
}

function fieldsOf(command: Command): readonly string[] {
  switch (command.name) {
    case 'count':
      return [command.name, String(command.count), command.noun];
    case 'measured':
      return [command.name, String(command.value), ...(command.unit === null ? [] : [command.unit])];
    case 'finding':
      return [command.name, String(command.number)];
    case 'goToStage':
    case 'reopenStage':
      return [command.name, String(command.stage)];
    default:
      return [command.name];
  }
}

/** What is printed on the card for `command`; its numbers must lie in the range that a card can carry. */
export function makeCardPayload(command: Command): string {
  const payload = PREFIX + fieldsOf(command).join(':');
  assert(parseCardPayload(payload).ok, `a card can carry the numbers of ${payload}`);
  return payload;
}

function whole(text: string | undefined, least: number): number | null {
  if (text === undefined || !WHOLE.test(text) || Number(text) < least) return null;
  return Number(text);
}

function countOf(args: readonly string[]): Command | null {
  const count = whole(args[0], 0);
  const noun = COUNT_NOUNS.find((known) => known === args[1]);
  return args.length === 2 && count !== null && noun !== undefined ? { name: 'count', count, noun } : null;
}

function measuredOf(args: readonly string[]): Command | null {
  const [text, unitText] = args;
  if (text === undefined || !DECIMAL.test(text) || args.length > 2) return null;
  if (unitText === undefined) return { name: 'measured', value: Number(text), unit: null };
  const unit = UNITS.find((known) => known === unitText);
  return unit === undefined ? null : { name: 'measured', value: Number(text), unit };
}

function commandOf(name: CommandName, args: readonly string[]): Command | null {
  switch (name) {
    case 'count':
      return countOf(args);
    case 'measured':
      return measuredOf(args);
    case 'finding': {
      const number = whole(args[0], 1);
      return args.length === 1 && number !== null ? { name, number } : null;
    }
    case 'goToStage':
    case 'reopenStage': {
      const stage = whole(args[0], 1);
      return args.length === 1 && stage !== null ? { name, stage } : null;
    }
    case 'stageComplete':
    case 'affirm':
    case 'negative':
    case 'sayAgain':
    case 'whatRemains':
    case 'standBy':
    case 'resume':
    case 'correction':
    case 'callInspector':
    case 'stow':
    case 'itemPlaced':
    case 'itemRemoved':
    case 'releaseHold':
    case 'returnHold':
    case 'readList':
    case 'itemsSeen':
    case 'cardPlaced':
    case 'stopAndTag':
    case 'nothingFound':
    case 'next':
    case 'slower':
    case 'faster':
    case 'finish':
      return args.length === 0 ? { name } : null;
    default:
      return unreachable(name);
  }
}

/** The command on a card. Whether it is legal now is for the pack to say. */
export function parseCardPayload(payload: string): Result<Command, CardFault> {
  const [nameText, ...args] = payload.slice(PREFIX.length).split(':');
  const name = COMMAND_NAMES.find((known) => known === nameText);
  const command = payload.startsWith(PREFIX) && name !== undefined ? commandOf(name, args) : null;
  return command === null
    ? refused('card-unknown', 'This card is none of the commands. Use the command card of this loft, or say it.')
    : ok(command);
}
