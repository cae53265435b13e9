/** What is left of a prompt when all that stands on the screen is taken out of it. */
import { describe, expect, it } from 'vitest';
import { leftOver } from '../../src/screens/parts/left-over';

const SHOWN = ['Stage 5 of 22.', 'Line stows', 'Turn each band twice.', 'Caution: Keep every stow to four inches'];

describe('left over', () => {
  it('is what to do now, when the stage is read out whole', () => {
    const prompt =
      'Stage 5 of 22. Line stows. Turn each band twice. Caution: Keep every stow to four inches. Say stage complete.';
    expect(leftOver(prompt, SHOWN)).toBe('Say stage complete.');
  });

  it('is everything, when nothing of it is shown', () => {
    expect(leftOver('5 of 12 stows. Next, right.', SHOWN)).toBe('5 of 12 stows. Next, right.');
  });

  it('is nothing, when all is shown', () => {
    expect(leftOver('Line stows.', SHOWN)).toBe('');
  });

  it('keeps a title that is only part of a sentence', () => {
    const prompt = 'A stow is loose. Back to stage 13, Line stows. Say affirm.';
    expect(leftOver(prompt, SHOWN)).toBe(prompt);
  });

  it('keeps a sentence that merely begins like one that is shown', () => {
    expect(leftOver('Line stows are loose.', SHOWN)).toBe('Line stows are loose.');
  });

  it('takes a sentence out once for each time it is shown', () => {
    expect(leftOver('Line stows. Line stows.', SHOWN)).toBe('Line stows.');
  });

  it('ignores empty pieces', () => {
    expect(leftOver('Line stows.', ['', ' '])).toBe('Line stows.');
  });
});
