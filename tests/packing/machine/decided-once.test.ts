/** One event, one decision: guards, action and the question for a PIN are given the same one. */
import { describe, expect, it } from 'vitest';
import type { PackContext } from '../../../src/packing/machine/context';
import { decide } from '../../../src/packing/machine/decide';
import { reach } from '../autopilot';
import { LOFT } from '../fixture';
import { PackDriver } from '../pack-driver';

const COMPLETE = {
  type: 'COMMAND',
  command: { name: 'stageComplete' },
  channel: 'key',
  at: '2026-11-25T10:00:00Z',
} as const;

function at(place: string): PackDriver {
  const driver = new PackDriver({ loft: LOFT });
  reach(driver, place);
  return driver;
}

/** The same context, that counts how often a decision looks at its facts. */
function counting(context: PackContext): { readonly context: PackContext; readonly looks: () => number } {
  let looks = 0;
  const watched = new Proxy(context, {
    get: (target, key, receiver) => {
      looks += key === 'facts' ? 1 : 0;
      return Reflect.get(target, key, receiver) as unknown;
    },
  });
  return { context: watched, looks: () => looks };
}

describe('an event', () => {
  it('is decided once, however often it is asked about', () => {
    const { context, looks } = counting(at('stage:lay').snapshot.context);
    const event = { ...COMPLETE };
    const first = decide('working', context, event);
    const looked = looks();
    expect(first?.to).toBe('storing');
    expect(looked).toBeGreaterThan(0);
    expect(decide('working', context, event)).toBe(first);
    expect(looks()).toBe(looked);
  });

  it('is decided anew where the pack stands elsewhere by then', () => {
    const event = { ...COMPLETE };
    const before = at('stage:lay').snapshot.context;
    const after = at('stage:cells').snapshot.context;
    expect(decide('working', before, event)?.to).toBe('storing');
    expect(decide('working', after, event)?.to).toBe('working');
    expect(decide('working', before, event)?.to).toBe('storing');
  });

  it('that says the same as another one is another event', () => {
    const { context } = at('stage:lay').snapshot;
    expect(decide('working', context, { ...COMPLETE })).not.toBe(decide('working', context, { ...COMPLETE }));
  });
});
