/** Rivals: a phrase with a slot must not be better said as one of them. */
import { describe, expect, it } from 'vitest';
import { found, openFor, PHRASES, rig, silence, speech } from './listener-rig';

describe('a command', () => {
  it('of many stands against its rivals in the second pass, a fixed one never', () => {
    const grammars = {
      wanted: ['#JSGF V1.0; grammar test; public <a> = (one | two | three | four | five | six) tools | stand by;'],
      others: [],
      rivals: ['#JSGF V1.0; grammar more; public <a> = one+ tools;'],
      lowRisk: [],
    };
    const hasLoopOf = (word: string, said: string): readonly boolean[] => {
      const { listener, hear, engine } = rig(found(said));
      openFor(listener, grammars, 0);
      hear(silence(0.5), speech(0.6), silence(0.6));
      return engine.networks.map(({ arcs }) => arcs.some((arc) => arc.word === word && arc.from === arc.to));
    };
    expect(hasLoopOf('one', 'two tools')).toEqual([false, true, false]);
    expect(hasLoopOf('one', 'stand by')).toEqual([false, false, false]);
  });

  it('to which a rival is the better path is none', () => {
    const { listener, hear, finals } = rig(found('two tools'), found('one one tools'));
    const wanted = ['#JSGF V1.0; grammar test; public <a> = (one | two | three | four | five | six) tools;'];
    openFor(
      listener,
      { wanted, others: [], rivals: ['#JSGF V1.0; grammar more; public <a> = one+ tools;'], lowRisk: [] },
      0,
    );
    hear(silence(0.5), speech(0.6), silence(0.6));
    expect(finals()).toEqual([{ kind: 'notHeard' }]);
  });

  it('is refused with rivals that cannot be used', () => {
    const { listener } = rig(found('stand by'));
    expect(openFor(listener, { ...PHRASES, rivals: ['one+ tools'] }, 0)).toMatchObject({
      ok: false,
      reason: 'bad-grammar',
    });
  });
});
