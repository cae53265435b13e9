/** A text of a procedure that could be taken for a command when it is read aloud is refused, with its line. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { lintProcedure } from '../../src/loft/parse-procedure';
import { anyCommandIn } from '../../src/voice/phrases/command-in-prompt';
import { demoPhrases } from '../e2e/support/demo-loft';

const sound = readFileSync(join(import.meta.dirname, 'sound.yaml'), 'utf8');
const commandIn = anyCommandIn(demoPhrases());

/** The sound procedure with another text in one place. */
function withText(from: string, to: string): string {
  expect(sound).toContain(from);
  return sound.replace(from, to);
}

const faultsOf = (text: string) =>
  lintProcedure('sound.yaml', text, commandIn).map(({ fault, line }) => ({
    fault,
    text: text.split('\n')[line - 1]?.trim(),
  }));

describe('a procedure that is read aloud', () => {
  it('may name commands inside longer sentences', () => {
    expect(faultsOf(sound)).toEqual([]);
    expect(faultsOf(withText('text: Crooked', 'text: Say stage complete when it lies straight'))).toEqual([]);
    expect(faultsOf(withText('text: Crooked', 'text: Longer than two inches'))).toEqual([]);
  });

  it.each([
    ['title: Lay out', 'title: Affirm'],
    ['title: Small procedure', 'title: Take the next'],
    ['title: First hold', 'title: "Hold it tight. Stand by."'],
    ['name: holding pin', 'name: item placed'],
    ['text: Wet', 'text: "Wrong: 5 stows"'],
    ['text: Crooked', 'text: "Crooked, go to stage 3."'],
    ['Stow the line.', 'Stow.'],
  ])('is refused where %s becomes %s', (from, to) => {
    const changed = withText(from, to);
    expect(faultsOf(changed)).toEqual([{ fault: 'is-command', text: expect.stringContaining(to) as string }]);
    expect(lintProcedure('sound.yaml', changed, commandIn)[0]?.reason).toMatch(/can be said to the kiosk/);
  });
});
