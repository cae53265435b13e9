/** A broken assumption stops at once and says which. */
import { describe, expect, it } from 'vitest';
import { assert, unreachable } from '../../src/domain/assert';

describe('a broken assumption', () => {
  it('stops and names what was believed', () => {
    expect(() => assert(false, 'line is left')).toThrow('Broken assumption: line is left');
    expect(() => assert(true, 'line is left')).not.toThrow();
  });

  it('at the end of a switch names the value that nobody expected', () => {
    expect(() => unreachable({ kind: 'new' } as never)).toThrow('Broken assumption: unexpected {"kind":"new"}');
  });
});
