/** A prompt that is put together from its parts. */
import type { StepPrompt } from '../machine/view';
import type { PromptPart } from './prompt-parts';
import { joinWords } from './words';

/** The prompt that these parts make; parts without words are left out. */
export function stepPrompt(utterance: number, all: readonly PromptPart[]): StepPrompt {
  const parts = all.filter(({ say, show }) => say !== '' || show !== '');
  return { key: String(utterance), ...joinWords(parts), parts };
}
