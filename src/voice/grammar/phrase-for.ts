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
    default:
      return null;
  }
}

/** Without a unit only the figure is said: "one and a quarter". */
function lengthPhrase(command: Extract<Command, { name: 'measured' }>): string {
  if (command.unit !== null) return spoken(sayQuantity({ value: command.value, unit: command.unit }));
  const inches = spoken(sayQuantity({ value: command.value, unit: 'in' }));
  return inches.replace(/^half an inch$/, 'a half').replace(/ (of an inch|inches|inch)$/, '');
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
