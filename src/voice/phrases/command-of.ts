/** From the meaning of a matched rule to a command: checked field by field, so that a slip in a tag cannot become an act. */
import { COMMAND_NAMES } from '../../domain/command';
import type { Command, CommandName } from '../../domain/command';
import { COUNT_NOUNS } from '../../domain/procedure';
import type { CountNoun } from '../../domain/procedure';
import { UNITS } from '../../domain/quantity';
import type { Unit } from '../../domain/quantity';
import { ok, refused } from '../../domain/result';
import type { Refused, Result } from '../../domain/result';
import type { Meaning } from '@stowcall/grammar';

type Fields = { readonly [name: string]: Meaning };

export function isCommandName(name: string): name is CommandName {
  return (COMMAND_NAMES as readonly string[]).includes(name);
}

/** The command that the meaning of rule `ruleName` stands for. Refusal `bad-meaning`: the grammar's tags are wrong. */
export function commandOf(ruleName: string, meaning: Meaning): Result<Command, 'bad-meaning'> {
  if (!isCommandName(ruleName)) return bad(`$${ruleName} is the name of no command.`);
  if (typeof meaning !== 'object' || meaning === null || Array.isArray(meaning)) {
    return bad(`$${ruleName} must mean an object.`);
  }
  const fields = meaning as Fields;
  if (fields['name'] !== ruleName) return bad(`$${ruleName} must carry its own name.`);
  switch (ruleName) {
    case 'count':
      return countOf(fields);
    case 'measured':
      return measuredOf(fields);
    case 'finding': {
      const number = wholeFrom(fields['number'], 1);
      if (number === null || !hasOnly(fields, ['name', 'number'])) return bad('$finding must mean a number from 1.');
      return ok({ name: 'finding', number });
    }
    case 'goToStage':
    case 'reopenStage': {
      const stage = wholeFrom(fields['stage'], 1);
      if (stage === null || !hasOnly(fields, ['name', 'stage'])) return bad(`$${ruleName} must mean a stage from 1.`);
      return ok({ name: ruleName, stage });
    }
    default:
      return hasOnly(fields, ['name']) ? ok({ name: ruleName }) : bad(`$${ruleName} must mean its name alone.`);
  }
}

function countOf(fields: Fields): Result<Command, 'bad-meaning'> {
  const count = wholeFrom(fields['count'], 0);
  const noun = fields['noun'];
  if (count === null || !isNoun(noun) || !hasOnly(fields, ['name', 'count', 'noun'])) {
    return bad('$count must mean a whole count and a noun that is counted.');
  }
  return ok({ name: 'count', count, noun });
}

function measuredOf(fields: Fields): Result<Command, 'bad-meaning'> {
  const value = fields['value'];
  const unit = fields['unit'];
  const valueIsGood = typeof value === 'number' && Number.isFinite(value) && value >= 0;
  if (!valueIsGood || !(unit === null || isUnit(unit)) || !hasOnly(fields, ['name', 'value', 'unit'])) {
    return bad('$measured must mean a length and a known unit or none.');
  }
  return ok({ name: 'measured', value, unit });
}

function hasOnly(fields: Fields, names: readonly string[]): boolean {
  return Object.keys(fields).length === names.length && names.every((name) => Object.hasOwn(fields, name));
}

function wholeFrom(value: Meaning | undefined, least: number): number | null {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= least ? value : null;
}

function isNoun(value: Meaning | undefined): value is CountNoun {
  return (COUNT_NOUNS as readonly Meaning[]).includes(value ?? null) && value !== null;
}

function isUnit(value: Meaning | undefined): value is Unit {
  return typeof value === 'string' && (UNITS as readonly string[]).includes(value);
}

function bad(detail: string): Refused<'bad-meaning'> {
  return refused('bad-meaning', `${detail} Correct the tags of the grammar.`);
}
