/** Listeners: who is told, in which order, and what happens to those that come and go while others are told. */
import { describe, expect, it } from 'vitest';
import { listeners } from '../../src/domain/listeners';

describe('listeners', () => {
  it('are told in the order in which they came, until they are taken away', () => {
    const told: string[] = [];
    const { add, tell } = listeners<[word: string]>();
    const leave = add((word) => told.push(`first ${word}`));
    add((word) => told.push(`second ${word}`));
    tell('one');
    leave();
    leave();
    tell('two');
    expect(told).toEqual(['first one', 'second one', 'second two']);
  });

  it('one that is taken away while others are told is not called any more', () => {
    const told: string[] = [];
    const { add, tell } = listeners();
    let leave = (): void => undefined;
    add(() => leave());
    leave = add(() => told.push('gone'));
    tell();
    expect(told).toEqual([]);
  });

  it('one that is added while others are told is called from the next time on', () => {
    const told: string[] = [];
    const { add, tell } = listeners();
    const leave = add(() => {
      leave();
      add(() => told.push('new'));
    });
    tell();
    expect(told).toEqual([]);
    tell();
    expect(told).toEqual(['new']);
  });
});
