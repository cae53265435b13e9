/** Counting is blind: no text that is read before a count may name the number that is to be found. */
import type { CountNoun, Procedure, Stage } from '../domain/procedure';
import { sayNumber } from '../domain/spoken';
import type { Problem } from './refusal';

const WORD_OF_NUMBER =
  '(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen|' +
  '(?:twen|thir|for|fif|six|seven|eigh|nine)ty|hundred|thousand)';

/** Whether the text names the number, as a figure or a word, and not as a part of another: "twenty-six" is no "six". */
function names(text: string, expected: number): boolean {
  const figure = new RegExp(`(?<![\\w/.,])${String(expected)}(?![\\w/]|[.,]\\d)`);
  const plain = text.toLowerCase().replaceAll('-', ' ');
  const word = sayNumber(expected).toLowerCase().replaceAll('-', ' ');
  const alone = new RegExp(`(?<!\\b${WORD_OF_NUMBER} (?:and )?)\\b${word}\\b(?! (?:and )?${WORD_OF_NUMBER}\\b)`);
  return figure.test(text) || alone.test(plain);
}

function namesNoun(text: string, noun: CountNoun): boolean {
  return new RegExp(`\\b${noun.slice(0, -1)}s?\\b`, 'i').test(text);
}

interface Read {
  readonly text: string;
  readonly path: readonly PropertyKey[];
}

function ownTexts({ title, steps, caution, number }: Stage): readonly Read[] {
  const at = ['stages', number - 1];
  return [
    { text: title, path: [...at, 'title'] },
    ...steps.map((text, index) => ({ text, path: [...at, 'steps', index] })),
    { text: caution ?? '', path: [...at, 'caution'] },
  ];
}

/** Inspection points that are read aloud at the table before this stage. */
function pointsBefore({ stages }: Procedure, before: Stage): readonly Read[] {
  return stages
    .filter(({ number }) => number < before.number)
    .flatMap(({ hold, number }) =>
      (hold?.inspect ?? []).map((text, index) => ({
        text,
        path: ['stages', number - 1, 'hold', 'inspect', index],
      })),
    );
}

/** Every text from which the packer would know a count beforehand. Inspection points that come after it may name it. */
export function checkBlind(procedure: Procedure): readonly Problem[] {
  return procedure.stages.flatMap((stage): readonly Problem[] => {
    if (stage.kind !== 'count') return [];
    const { expected, noun, number } = stage;
    const told = [
      ...ownTexts(stage).filter(({ text }) => names(text, expected)),
      // A number may be that of something else; with the noun it is this one.
      ...pointsBefore(procedure, stage).filter(({ text }) => names(text, expected) && namesNoun(text, noun)),
    ];
    const reason =
      `Stage ${String(number)} counts ${noun} blind, and this text tells the number ${String(expected)} beforehand. ` +
      'Leave the number out; an inspection point after the count may name it.';
    return told.map(({ path }) => ({ path, fault: 'number-told', reason }));
  });
}
