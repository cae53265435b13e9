/**
 * Counting and measuring are blind: what is expected is neither said nor shown before the rigger has given a reading,
 * since who knows the answer reads it off the table. Afterwards it stands beside what was given.
 */
import { personById } from '../../domain/loft';
import type { CountNoun, Stage } from '../../domain/procedure';
import type { Unit } from '../../domain/quantity';
import type { Band } from '../../domain/measure';
import { withinBand } from '../../domain/measure';
import type { Here } from '../machine/context';
import { taskKey } from '../state/task';
import { countWords } from './words';

/** Whether the packer of the moment may know what is expected before giving a reading. */
export function isToldBefore({ context }: Pick<Here, 'context'>): boolean {
  const { loft, state } = context;
  if (loft.settings.expectedShown !== 'alsoBeforeForTrainees' || state.packer === null) return false;
  return personById(loft, state.packer)?.roles.includes('trainee') === true;
}

/** The count that was affirmed at this very step and refused; null while none was given. */
export function countGiven({ context, task }: Here): number | null {
  return context.given?.step === taskKey(task) ? context.given.count : null;
}

/** Whether the expected number of a count may be told at this step. */
export function isCountTold(here: Here): boolean {
  return isToldBefore(here) || countGiven(here) !== null;
}

/** Whether the expected length of a measuring stage may be told: a reading outside it is a fact by then. */
export function isLengthTold(here: Here, stage: Stage): boolean {
  return isToldBefore(here) || here.context.state.outside?.stage === stage.id;
}

/** Far from what is counted on a table, so that the example suggests nothing; never the number that is expected. */
const FAR = [98, 76] as const;

/** What to say, as an example of the form alone. */
export function exampleCount(expected: number, noun: CountNoun): string {
  return countWords(expected === FAR[0] ? FAR[1] : FAR[0], noun).say;
}

const UNIT_WORDS: Readonly<Record<Unit, string>> = { in: 'inches', ft: 'feet', cm: 'centimetres', mm: 'millimetres' };

/** The same for a length, digit by digit as lengths are said; never one that would be taken. */
export function exampleLength(band: Band): string {
  const { unit } = band.lowest;
  const isTaken = withinBand({ value: FAR[0], unit }, band);
  return `${isTaken ? 'seven six' : 'nine eight'} ${UNIT_WORDS[unit]}`;
}
