/** A heap snapshot is added up by what makes each part grow. */
import { describe, expect, it } from 'vitest';
import { heapWeightOf, type HeapSnapshot } from '../../bench/heap-weight';

const TYPES = ['hidden', 'object', 'code', 'native', 'string'];

function snapshotOf(rows: readonly (readonly [type: string, name: string, bytes: number])[]): HeapSnapshot {
  const strings = rows.map(([, name]) => name);
  return {
    snapshot: { meta: { node_fields: ['type', 'name', 'id', 'self_size'], node_types: [TYPES, 'string'] } },
    nodes: rows.flatMap(([type, , bytes], at) => [TYPES.indexOf(type), at, at * 2 + 1, bytes]),
    strings,
  };
}

describe('The weight of a heap', () => {
  it.each([
    ['machine code', ['code', 'system / InstructionStream', 700], { code: 700 }],
    ['lists that go with code', ['native', 'system / WeakArrayList', 30], { code: 30 }],
    ['contents of a buffer', ['native', 'system / JSArrayBufferData', 64_000], { buffers: 64_000 }],
    ['an entry of a timeline', ['native', 'PerformanceMark', 144], { browser: 144 }],
    ['an object', ['object', 'Fact', 56], { objects: 56 }],
    ['a string', ['string', 'system / InstructionStream?', 20], { objects: 20 }],
  ] as const)('counts %s where it belongs', (_, row, expected) => {
    expect(heapWeightOf(snapshotOf([row]))).toEqual({ code: 0, buffers: 0, browser: 0, objects: 0, ...expected });
  });

  it('adds up', () => {
    const rows = [
      ['object', 'Fact', 56],
      ['code', 'one', 10],
      ['object', 'Fact', 44],
    ] as const;
    expect(heapWeightOf(snapshotOf(rows))).toEqual({ code: 10, buffers: 0, browser: 0, objects: 100 });
  });

  it('does not guess when a column is missing', () => {
    const whole = snapshotOf([]);
    const meta = { ...whole.snapshot.meta, node_fields: ['type', 'name'] };
    expect(() => heapWeightOf({ ...whole, snapshot: { meta } })).toThrow('self_size');
  });
});
