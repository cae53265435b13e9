/** What has been typed on a pad so far, by finger or by key, and the command that it makes. */
import type { Command } from '../../domain/command';
import { LONGEST_TYPED, SAME_TAPE } from '../../domain/enterable';
import type { Unit } from '../../domain/quantity';
import type { LegalCommand, TouchInput } from '../contract/pack-view';

export interface Typed {
  /** Digits, with at most one point. */
  readonly digits: string;
  /** 0 to 15 sixteenths beside the digits. */
  readonly sixteenths: number;
  /** The unit chosen on the pad; null means the one that was asked for. */
  readonly unit: Unit | null;
}

export const NOTHING_TYPED: Typed = { digits: '', sixteenths: 0, unit: null };

/** Units of the same tape: a length asked for in feet may be given in inches. */
export function unitsBeside(unit: Unit): readonly Unit[] {
  return SAME_TAPE[unit];
}

/** Adds one digit. A leading zero is replaced, so that "05" cannot be shown. */
export function typeDigit(typed: Typed, digit: string): Typed {
  if (typed.digits.length >= LONGEST_TYPED) return typed;
  return { ...typed, digits: typed.digits === '0' ? digit : `${typed.digits}${digit}` };
}

/** Adds the decimal point; a fraction that was chosen gives way to it. */
export function typePoint(typed: Typed): Typed {
  if (typed.digits.includes('.') || typed.digits.length >= LONGEST_TYPED) return typed;
  return { ...typed, digits: typed.digits === '' ? '0.' : `${typed.digits}.`, sixteenths: 0 };
}

/** Takes the last digit back. */
export function rubOut(typed: Typed): Typed {
  return { ...typed, digits: typed.digits.slice(0, -1) };
}

/** Chooses the fraction; it stands in the place of decimals. */
export function chooseSixteenths(typed: Typed, sixteenths: number): Typed {
  return { ...typed, sixteenths, digits: typed.digits.split('.')[0] ?? '' };
}

/** Changes the unit. Only inches have fractions on the pad, so a fraction goes with the inches. */
export function chooseUnit(typed: Typed, unit: Unit): Typed {
  return { digits: unit === 'in' ? (typed.digits.split('.')[0] ?? '') : typed.digits, sixteenths: 0, unit };
}

/** The unit that is meant now. */
export function unitOf(typed: Typed, input: Extract<TouchInput, { kind: 'quantity' }>): Unit {
  return typed.unit ?? input.unit;
}

/** The typed length, or null while there is none. */
export function typedValue(typed: Typed): number | null {
  if (typed.digits === '' && typed.sixteenths === 0) return null;
  return Number(typed.digits === '' ? '0' : typed.digits) + typed.sixteenths / 16;
}

function numbered(name: string, number: number): Command | null {
  if (name === 'finding') return { name: 'finding', number };
  if (name === 'goToStage' || name === 'reopenStage') return { name, stage: number };
  return null;
}

/** The command for a pressed control; null where this command needs a value first. */
export function pressed(legal: LegalCommand): Command | null {
  const { name } = legal;
  if (name === 'count' || name === 'measured' || name === 'finding') return null;
  if (name === 'goToStage' || name === 'reopenStage') return null;
  return { name };
}

/** The command for one option of a choice; what was written goes with the option that takes a note. */
export function chosen(legal: LegalCommand, number: number, note = ''): Command | null {
  if (legal.input.kind !== 'choice' || !legal.input.options.some((option) => option.number === number)) return null;
  const command = numbered(legal.name, number);
  const takesNote = legal.input.note?.number === number && note.trim() !== '';
  return command?.name === 'finding' && takesNote ? { ...command, note: note.trim() } : command;
}

/** The command for what has been typed; null while that is nothing, or is more than may be. */
export function typedCommand(legal: LegalCommand, typed: Typed): Command | null {
  const { input, name } = legal;
  const value = typedValue(typed);
  if (value === null || !Number.isFinite(value)) return null;
  if (input.kind === 'quantity' && name === 'measured') return { name, value, unit: unitOf(typed, input) };
  if (!Number.isInteger(value)) return null;
  if (input.kind === 'count' && name === 'count')
    return value > input.max ? null : { name, count: value, noun: input.noun };
  return chosen(legal, value);
}
