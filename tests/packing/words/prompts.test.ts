/** A prompt is said anew exactly when there is something to say. */
import { describe, expect, it } from 'vitest';
import { reach, step } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';

const at = (place: string): PackDriver => {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place);
  return driver;
};

/** Whether the key changes. */
function speaks(driver: PackDriver, act: () => void): boolean {
  const before = driver.view.prompt.key;
  act();
  return driver.view.prompt.key !== before;
}

describe('the key of the prompt', () => {
  it('changes with a new step, a read-back, a refusal, an answer and "say again"', () => {
    const driver = at('stage:lay');
    expect(speaks(driver, () => driver.command({ name: 'sayAgain' }))).toBe(true);
    expect(speaks(driver, () => driver.command({ name: 'stow' }))).toBe(true);
    expect(speaks(driver, () => driver.command({ name: 'stow' }))).toBe(true);
    expect(speaks(driver, () => driver.command({ name: 'whatRemains' }))).toBe(true);
    expect(speaks(driver, () => driver.command({ name: 'stageComplete' }))).toBe(true);
    expect(speaks(driver, () => driver.command({ name: 'count', count: 7, noun: 'cells' }))).toBe(true);
    expect(speaks(driver, () => driver.command({ name: 'affirm' }))).toBe(true);
  });

  it('does not change by time, by labels that lie about, or while something is being stored', () => {
    const driver = at('stage:lay');
    expect(speaks(driver, () => driver.tick())).toBe(false);
    expect(speaks(driver, () => driver.component('P1-BAG'))).toBe(false);
    driver.storage = 'hangs';
    const { prompt } = driver.view;
    driver.command({ name: 'stageComplete' });
    expect(driver.view.prompt).toEqual(prompt);
    expect(speaks(driver, () => driver.settle('works'))).toBe(true);
  });

  it('only rises, whatever happens, so that no voice takes a new prompt for one that it has said', () => {
    const driver = at('stage:cells');
    const keys = [Number(driver.view.prompt.key)];
    const look = () => void keys.push(Number(driver.view.prompt.key));
    driver.command({ name: 'stow' });
    look();
    driver.command({ name: 'whatRemains' });
    look();
    driver.command({ name: 'count', count: 7, noun: 'cells' });
    look();
    driver.storage = { fails: 'The storage is full.' };
    driver.command({ name: 'affirm' });
    look();
    driver.storage = 'works';
    driver.command({ name: 'affirm' });
    look();
    expect(keys).toEqual([...new Set(keys)].sort((one, other) => one - other));
  });

  it('never comes back with other words', () => {
    const driver = new PackDriver({ loft: LOFT });
    const said = new Map<string, string>();
    do {
      const { key, say } = driver.view.prompt;
      expect(said.get(key) ?? say).toBe(say);
      said.set(key, say);
    } while (step(driver));
    expect(said.size).toBeGreaterThan(40);
  });
});

describe('what is said', () => {
  it('is the whole step again after a correction within it', () => {
    const driver = at('stage:stows');
    driver.command({ name: 'stow' });
    expect(driver.view.prompt.say).not.toContain('Do what Stow the line asks.');
    driver.command({ name: 'correction' });
    driver.command({ name: 'affirm' });
    expect(driver.view.prompt.say).toContain('Do what Stow the line asks.');
  });

  it('has no figures: numbers, lengths and serials are words', () => {
    const driver = new PackDriver({ loft: LOFT });
    do {
      if (driver.phase === 'recorded') break;
      // The name of an assembly is the loft's own and is said as it is written; a date is left to the voice.
      const heard = driver.view.prompt.say.replaceAll('Assembly P1', '').replace(/use: \d+ \w+ \d{4}/, '');
      expect(heard).not.toMatch(/[0-9]/);
    } while (step(driver));
  });

  it('is on screen as well, in the prompt or in the notice', () => {
    const driver = new PackDriver({ loft: LOFT });
    do {
      const { prompt, notice } = driver.view;
      expect(prompt.show.length).toBeGreaterThan(0);
      const words = (text: string) => text.split(' ').length;
      // Spelling out makes speech longer than what is shown, never shorter.
      expect(words(prompt.say)).toBeGreaterThanOrEqual(words(`${notice?.text ?? ''} ${prompt.show}`.trim()));
    } while (step(driver));
  });

  it('puts the notice first and then what to do', () => {
    const driver = at('stage:lay');
    driver.command({ name: 'stow' });
    expect(driver.view.prompt.say).toBe('Not now: stow. Say stage complete when it is done.');
    expect(driver.view.notice).toEqual({ tone: 'refusal', text: 'Not now: stow.' });
  });

  it('reads a step in full on arrival and after a restart, and only what is new while it goes on', () => {
    const driver = at('stage:stows');
    expect(driver.view.prompt.say).toContain('Do what Stow the line asks.');
    driver.command({ name: 'stow' });
    expect(driver.view.prompt.say).toBe('one of six stows. Next, right.');
    driver.restart();
    expect(driver.view.prompt.say).toMatch(/^Back after a break\. Stage five of eight\. Stow the line\./);
  });

  it('after "negative" or a refused count is only what is asked', () => {
    const driver = at('stage:cells');
    driver.command({ name: 'count', count: 9, noun: 'cells' });
    driver.command({ name: 'negative' });
    expect(driver.view.prompt.say).toBe('Not taken. Say the number and the word cells.');
    expect(driver.view.notice).toEqual({ tone: 'answer', text: 'Not taken.' });
    driver.command({ name: 'count', count: 6, noun: 'cells' });
    driver.command({ name: 'affirm' });
    expect(driver.view.prompt.say).toBe(
      'Not taken: six cells counted, seven expected. Count again, or let the inspector decide. ' +
        'Say the number and the word cells.',
    );
  });

  it('keeps a notice until the next accepted act', () => {
    const driver = at('stage:lay');
    driver.command({ name: 'stow' });
    driver.after(3_600);
    driver.tick();
    expect(driver.view.notice).not.toBeNull();
    driver.command({ name: 'stageComplete' });
    expect(driver.view.notice).toBeNull();
  });
});
