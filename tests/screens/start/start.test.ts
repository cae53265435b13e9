/** What the start screen, and the screens around a pack, owe a person. */
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { draw } from '../drawn';
import { fixturesAt } from '../fixtures';
import { fixture, read } from '../named';

describe('start', () => {
  it('carries the safety note in full', () => {
    const text = read('start');
    expect(text).toContain('invented and must not be used to pack a parachute');
    expect(text).toContain('writes its own from the manufacturer’s current instructions');
    expect(text).toContain('judgement of licensed riggers and inspectors come first');
    expect(text).toContain('The kiosk assists; it does not certify.');
  });

  it('claims nothing of demonstration where the loft packs by its own procedures', () => {
    const text = read('start-own-procedures');
    expect(text).not.toMatch(/demonstration|invented|must not be used/i);
    expect(text).toContain('Local rules and the judgement of licensed riggers and inspectors come first.');
    expect(text).toContain('The kiosk assists; it does not certify.');
  });

  it('marks each procedure that is only for demonstration', () => {
    expect(read('start')).toContain('22 stages, 8 holds, demonstration only');
  });

  it('says of every part whether it works, and of a failed one what still does', () => {
    const text = read('start-troubled');
    expect(text).toContain('Microphone failed');
    expect(text).toContain('Touch, keys and the command card still work.');
    expect(text).toContain('Storage works');
    expect(read('start-checking')).toContain('Storage being checked');
  });

  it('shows the live level beside a microphone that works', () => {
    expect(draw(fixture('start')).match(/class="level"/g)).toHaveLength(2);
    expect(draw(fixture('start-troubled')).match(/class="level"/g)).toHaveLength(1);
  });

  it('names a refused file, its line and the reason', () => {
    const text = read('start-troubled');
    expect(text).toContain('procedures/heron-main.yaml, line 148');
    expect(text).toContain('is placed in stage 4 and never removed');
    expect(text).toContain('people.yaml The file is not YAML');
  });

  it('says so when there is no procedure to hear', () => {
    expect(read('start-empty')).toContain('No procedure could be loaded.');
  });
});

describe('help', () => {
  const links = (name: string): readonly string[] =>
    [...draw(fixture(name)).matchAll(/<a [^>]*href="([^"]*)"[^>]*>([^<]*)</g)].map(([, to, label]) => `${label} ${to}`);

  it('leads from the start screen to the guide, which is part of what is served', () => {
    expect(links('start')).toEqual(['Help /guide/index.html']);
    expect(existsSync(new URL('../../../public/guide/index.html', import.meta.url))).toBe(true);
  });

  it('leads away from no other screen: a pack may be open there', () => {
    const others = Object.keys(fixturesAt(0)).filter((name) => !name.startsWith('start'));
    expect(others.length).toBeGreaterThan(60);
    expect(others.flatMap(links)).toEqual([]);
  });
});

describe('around a pack', () => {
  it('says who is in charge when there are two tabs', () => {
    expect(read('second-tab')).toContain('This table is already in charge in another tab.');
  });
  it('says in a rehearsal that nothing is recorded', () => {
    expect(read('rehearsal')).toContain('Rehearsal: nothing is recorded');
  });
  it('shows since when it stands by, by the clock at the table', () => {
    expect(read('standing-by')).toContain('Since 14:03');
  });
  it('shows every licence with its text', () => {
    expect(read('licences')).toContain('acoustic model en-us 5.2 BSD-2-Clause');
    expect(read('licences')).toContain('Permission is hereby granted');
  });
});
