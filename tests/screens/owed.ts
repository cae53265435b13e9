/** What every screen owes: each spoken sentence in sight, and a control with phrase and key for each legal command. */
import type { AppView } from '../../src/screens/contract/app-view';
import { keyLabel } from '../../src/screens/parts/keys';
import { legalOf, promptOf, readable } from './drawn';

function sentences(text: string): readonly string[] {
  return text
    .split(/(?<=[.?!:])\s+/)
    .map((sentence) => sentence.replace(/[.:]$/, '').trim())
    .filter((sentence) => sentence !== '');
}

/** The names of what follows: the hold's own line says the first, the lists are seen to be lists. */
const NAMES_OF_WHAT_FOLLOWS = /^(To be inspected|Inspection hold \d+ of \d+|Number \d+)$/;

/** Spoken sentences that cannot be read on the screen. */
export function unshownSentences(view: AppView, markup: string): readonly string[] {
  const text = readable(markup);
  const prompt = promptOf(view);
  if (prompt === null) return [];
  return sentences(prompt.show).filter((sentence) => !text.includes(sentence) && !NAMES_OF_WHAT_FOLLOWS.test(sentence));
}

/** Legal commands that lack a control, its label, its phrase or its key; with what is lacking. */
export function uncontrolledCommands(view: AppView, markup: string): readonly string[] {
  const text = readable(markup);
  return legalOf(view).flatMap(({ name, label, phrase, input, main }) => {
    if (main && input.kind === 'choice') {
      const options = input.options.map((option) => `${String(option.number)} ${option.label}`);
      return [...options, `say: ${phrase}`]
        .filter((words) => !text.includes(words))
        .map((words) => `${name}: ${words}`);
    }
    const button = new RegExp(`<button[^>]*data-command="${name}".*?</button>`, 's').exec(markup)?.[0] ?? '';
    const words = [label, ...(phrase === '' ? [] : [`say: ${phrase}`]), keyLabel(name)];
    return words.filter((each) => !readable(button).includes(each)).map((each) => `${name}: ${each}`);
  });
}

/** Controls for commands that are not legal, or more than one for the same. */
export function uncalledControls(view: AppView, markup: string): readonly string[] {
  const offered = [...markup.matchAll(/data-command="(\w+)"/g)].map((match) => match[1] ?? '');
  const legal: readonly string[] = legalOf(view).map(({ name }) => name);
  return offered.filter((name, index) => !legal.includes(name) || offered.indexOf(name) !== index);
}
