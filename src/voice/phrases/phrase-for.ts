/** A sentence for a command: what a command card prints beside its barcode, and what tests say. */
import type { Command } from '../../domain/command';
import type { CountNoun } from '../../domain/procedure';
import { sayNumber, sayQuantity } from '../../domain/spoken';

/** The word for exactly one; `count` takes it after "one". */
const SINGULAR: Readonly<Record<CountNoun, string>> = {
  stows: 'stow',
  tools: 'tool',
  lines: 'line',
  gores: 'gore',
  cells: 'cell',
  wraps: 'wrap',
  ties: 'tie',
  bands: 'band',
};

/** The words of a command with a slot; null for the plain ones, whose words are in the grammar alone. */
export function slotPhrase(command: Command): string | null {
  switch (command.name) {
    case 'count':
      return `${spoken(sayNumber(command.count))} ${command.count === 1 ? SINGULAR[command.noun] : command.noun}`;
    case 'measured':
      return `measured ${lengthPhrase(command)}`;
    case 'finding':
      return `finding ${spoken(sayNumber(command.number))}`;
    case 'goToStage':
      return `go to stage ${spoken(sayNumber(command.stage))}`;
    case 'reopenStage':
      return `reopen stage ${spoken(sayNumber(command.stage))}`;
    default:
      return null;
  }
}

/** The grammar has no thousands. */
const WHOLE_MAX = 999;

/**
 * Without a unit only the figure is said: "one and a quarter". Very long ones came as feet and inches, and a metric one
 * that three decimals cannot say came as a fraction.
 */
function lengthPhrase(command: Extract<Command, { name: 'measured' }>): string {
  if (command.unit === 'in' && command.value >= WHOLE_MAX + 1) {
    const feet = Math.min(WHOLE_MAX, Math.floor(command.value / 12));
    const inches = sayQuantity({ value: command.value - feet * 12, unit: 'in' });
    return `${spoken(sayNumber(feet))} feet ${inchesAfterFeet(spoken(inches))}`;
  }
  if ((command.unit === 'cm' || command.unit === 'mm') && !Number.isInteger(command.value * 1000)) {
    const [one, many] = command.unit === 'cm' ? ['centimetre', 'centimetres'] : ['millimetre', 'millimetres'];
    const words = spoken(sayQuantity({ value: command.value, unit: 'in' }));
    return words.replace(/ an inch$/, ` a ${one}`).replace(/ inches$/, ` ${many}`);
  }
  if (command.unit !== null) return spoken(sayQuantity({ value: command.value, unit: command.unit }));
  const inches = spoken(sayQuantity({ value: command.value, unit: 'in' }));
  return inches.replace(/^half an inch$/, 'a half').replace(/ (of an inch|inches|inch)$/, '');
}

/** After feet the grammar takes the figure first: "a half inches" and not "half an inch". */
function inchesAfterFeet(words: string): string {
  return words.replace(/^half an inch$/, 'a half inch').replace(/ of an inch$/, ' inch');
}

/** Words as the grammar knows them: lower case, no hyphens, no marks. */
export function spoken(text: string): string {
  return text
    .toLowerCase()
    .replace(/[-.,;:!?]/g, ' ')
    .split(/\s+/)
    .filter((word) => word !== '')
    .join(' ');
}
