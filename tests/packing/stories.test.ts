/** Plays every story of this folder: a person at the table, line by line. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { expectJoined } from './words/expect-joined';
import type { Story } from './story';
import { StoryTeller } from './story';

const files = readdirSync(import.meta.dirname).filter((name) => name.endsWith('.story.yaml'));

describe.each(files)('%s', (file) => {
  const stories = parse(readFileSync(`${import.meta.dirname}/${file}`, 'utf8')) as readonly Story[];

  it.each(stories.map(({ story, lines }) => ({ story, lines })))('$story', ({ lines }) => {
    const teller = new StoryTeller();
    const told = lines.split('\n').filter((line) => line.trim() !== '' && !line.trim().startsWith('#'));
    expect(
      told.some((line) => line.trim().startsWith('expect')),
      'a story expects something',
    ).toBe(true);
    told.forEach((line, index) => {
      try {
        teller.play(line.trim());
        if (teller.isOpen) expectJoined(teller.pack.view.prompt);
      } catch (error) {
        throw new Error(`line ${String(index + 1)}: ${line.trim()}\n${String(error)}`, { cause: error });
      }
    });
  });
});
