/** A sentence for a command: what a command card prints beside its barcode, and what tests say. */
import type { Command } from '../../domain/command';
import type { CountNoun } from '../../domain/procedure';
import { sayNumber, sayQuantity } from '../../domain/spoken';

/** The singular, which `count` takes after "one". */
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

/** The words of a command with a slot (a number or a length); null for a command without, whose words are in the grammar alone. */
export function slotPhrase(command: Command): string | null {
  switch (command.name) {
    case 'count':
      return `${normalised(sayNumber(command.count))} ${command.count === 1 ? SINGULAR[command.noun] : command.noun}`;
    case 'measured':
      return `measured ${lengthPhrase(command)}`;
    case 'finding':
      return `finding ${normalised(sayNumber(command.number))}`;
    case 'goToStage':
      return `go to stage ${normalised(sayNumber(command.stage))}`;
    case 'reopenStage':
      return `reopen stage ${normalised(sayNumber(command.stage))}`;
    default:
      return null;
  }
}

/** The grammar has no thousands. */
const WHOLE_MAX = 999;

/**
 * Without a unit only the figure is said: "one and a quarter". Lengths beyond 999 inches can only have been said as feet
 * and inches, and metric ones that three decimals cannot say only as a fraction.
 */
function lengthPhrase(command: Extract<Command, { name: 'measured' }>): string {
  if (command.unit === 'in' && command.value >= WHOLE_MAX + 1) {
    const feet = Math.min(WHOLE_MAX, Math.floor(command.value / 12));
    const inches = sayQuantity({ value: command.value - feet * 12, unit: 'in' });
    return `${normalised(sayNumber(feet))} feet ${inchesAfterFeet(normalised(inches))}`;
  }
  if ((command.unit === 'cm' || command.unit === 'mm') && !Number.isInteger(command.value * 1000)) {
    const [one, many] = command.unit === 'cm' ? ['centimetre', 'centimetres'] : ['millimetre', 'millimetres'];
    const words = normalised(sayQuantity({ value: command.value, unit: 'in' }));
    return words.replace(/ an inch$/, ` a ${one}`).replace(/ inches$/, ` ${many}`);
  }
  if (command.unit !== null) return normalised(sayQuantity({ value: command.value, unit: command.unit }));
  const inches = normalised(sayQuantity({ value: command.value, unit: 'in' }));
  return inches.replace(/^half an inch$/, 'a half').replace(/ (of an inch|inches|inch)$/, '');
}

/** After feet the grammar takes the figure first: "a half inches" and not "half an inch". */
function inchesAfterFeet(words: string): string {
  return words.replace(/^half an inch$/, 'a half inch').replace(/ of an inch$/, ' inch');
}

/** Text normalised to the words of the grammars: lower case, no hyphens, no punctuation. */
export function normalised(text: string): string {
  return text
    .toLowerCase()
    .replace(/[-.,;:!?]/g, ' ')
    .split(/\s+/)
    .filter((word) => word !== '')
    .join(' ');
}
