/** The calibration: who is heard, what is chosen, and that nothing is searched twice. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Trial } from '@stowcall/web-speech/calibration/choose';
import { choose, countTrials } from '@stowcall/web-speech/calibration/choose';
import { Meter } from '@stowcall/web-speech/calibration/meter';
import { heldOutOf } from '@stowcall/web-speech/calibration/split';
import type { RecognitionEngine } from '@stowcall/web-speech/core';
import { automatonOf } from '@stowcall/web-speech/core';
import { parseJsgf } from '@stowcall/grammar';
import { hiss } from '../../../audio/hiss';
import { FakeEngine } from './fake-engine';

describe('the split', () => {
  it('holds out every second speaker, whatever the order of the recordings', () => {
    expect([...heldOutOf(['d', 'a', 'c', 'a', 'b', 'e'])]).toEqual(['b', 'd']);
    expect(heldOutOf([]).size).toBe(0);
  });
});

/** Obeys `phrase` wherever the filler model is at least so dear and the margin over others at most so great. */
const trial = (said: string | null, phrase: string, [filler, rival]: readonly [number, number]): Trial => ({
  said,
  obeyed: (candidate) => (candidate.filler >= filler && candidate.rival <= rival ? phrase : null),
});
const GRID = { fillers: [60, 80, 100], rivals: [10, 20, 30] };
const any = () => true;
const PLAIN = { mayBe: any, room: 0, ofEquals: 'strictest' } as const;

describe('the choice', () => {
  const right = trial('go', 'go', [80, 20]);
  const wrong = trial('no', 'go', [100, 20]);
  const talk = trial(null, 'go', [80, 10]);

  it('counts right, wrong and false apart', () => {
    expect(countTrials([right, wrong, talk], { filler: 100, rival: 10 })).toEqual({
      commands: 2,
      obeyed: 1,
      wrong: 1,
      others: 1,
      falselyAccepted: 1,
    });
  });

  it('allows as many errors as the aims allow, and no more', () => {
    const others = (count: number, filler: number) =>
      Array.from({ length: count }, () => trial('yes', 'yes', [filler, 40]));
    const one = [...others(199, 100), trial('no', 'go', [100, 40])];
    expect(choose(one, GRID, PLAIN).counts).toMatchObject({
      commands: 200,
      obeyed: 199,
      wrong: 1,
    });
    const two = [...others(198, 100), trial('no', 'go', [100, 40]), trial('no', 'go', [100, 40])];
    expect(choose(two, GRID, PLAIN).counts).toMatchObject({
      obeyed: 0,
      wrong: 0,
    });
    const talk = (count: number) => Array.from({ length: count }, () => trial(null, 'go', [90, 40]));
    const silent = Array.from({ length: 332 }, () => trial(null, 'go', [999, 0]));
    expect(choose([...others(9, 100), ...silent, ...talk(1)], GRID, PLAIN).counts).toMatchObject({ obeyed: 0 });
    expect(
      choose([...others(9, 100), ...silent, ...talk(1), trial(null, 'go', [999, 0])], GRID, PLAIN).counts.obeyed,
    ).toBe(9);
  });

  it('takes fewest errors before most obeyed, and of equals the strictest or the laxest', () => {
    expect(choose([right, wrong, talk], GRID, PLAIN).candidate).toEqual({
      filler: 80,
      rival: 20,
    });
    expect(choose([talk], GRID, PLAIN).candidate).toEqual({ filler: 60, rival: 30 });
    expect(choose([right, talk], GRID, PLAIN).candidate).toEqual({ filler: 80, rival: 20 });
    expect(choose([right, talk], GRID, { ...PLAIN, ofEquals: 'laxest' }).candidate).toEqual({ filler: 100, rival: 20 });
  });

  it('with room keeps a step away from errors', () => {
    const edge = trial('no', 'go', [100, 30]);
    expect(choose([right, edge], GRID, PLAIN).candidate).toEqual({
      filler: 80,
      rival: 20,
    });
    expect(choose([right, edge], GRID, { ...PLAIN, room: 1 }).candidate.filler).toBe(60);
  });

  it('passes over what may not be, and throws where nothing may', () => {
    const strict = ({ filler }: { filler: number }) => filler < 80;
    expect(choose([right], GRID, { ...PLAIN, mayBe: strict }).candidate).toEqual({
      filler: 60,
      rival: 30,
    });
    expect(() => choose([right], GRID, { ...PLAIN, mayBe: () => false })).toThrow('no candidate');
  });
});

describe('the meter', () => {
  const grammar = parseJsgf('#JSGF V1.0; grammar a; public <a> = go | stop;');
  if (!grammar.ok) throw new Error(grammar.detail);
  const automaton = automatonOf([grammar.value]);
  if (!automaton.ok) throw new Error(automaton.detail);
  const tone = Float32Array.from({ length: 32_000 }, (_, at) =>
    at > 9600 && at < 19_200 ? 0.3 * Math.sin(at * 1.3) : 0,
  );
  const sound = hiss(0.001, 32_000, 3).map((sample, at) => sample + (tone[at] ?? 0));
  const options = (engine: RecognitionEngine, of: string, cache: string) => ({
    engine,
    automaton: automaton.value,
    finding: 160,
    cache,
    of,
  });
  const cacheFile = () => join(mkdtempSync(join(tmpdir(), 'stowcall-meter-')), 'cache.json');

  it('searches once for what other answers leave open, and never again', () => {
    const engine = new FakeEngine(70, 20);
    const cache = cacheFile();
    const meter = new Meter(options(engine, 'x', cache));
    const [one] = meter.measure('tone', () => sound);
    expect(one).toMatchObject({ phrase: 'go' });
    expect([one?.wins(100, 20), one?.wins(100, 30), one?.wins(60, 10)]).toEqual([true, false, false]);
    const { searches } = engine;
    // Laxer than what won, and stricter than what lost.
    expect([one?.wins(120, 10), one?.wins(90, 40), one?.wins(50, 20)]).toEqual([true, false, false]);
    expect(engine.searches).toBe(searches);
    meter.save();
    const again = new Meter(options(engine, 'x', cache)).measure('tone', () => {
      throw new Error('the sound is not needed');
    });
    expect(again[0]?.wins(100, 20)).toBe(true);
  });

  it('forgets what another state of the engine found', () => {
    const engine = new FakeEngine(70, 20);
    const cache = cacheFile();
    const meter = new Meter(options(engine, 'x', cache));
    meter.measure('tone', () => sound);
    meter.save();
    const { searches } = engine;
    new Meter(options(engine, 'y', cache)).measure('tone', () => sound);
    expect(engine.searches).toBeGreaterThan(searches);
  });
});
