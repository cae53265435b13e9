/** Blocks of sound keep their place in the stream, also where a piece of it is missing. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BlockGatherer } from '../../../../src/speech/web-speech/microphone/block-gatherer';

const ramp = (from: number, length: number) => Float32Array.from({ length }, (_, index) => from + index);

describe('gathering', () => {
  it('whatever the pieces are, the blocks in order are the stream', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 70 }), { maxLength: 20 }), (sizes) => {
        const gatherer = new BlockGatherer(32);
        let at = 0;
        const blocks = sizes.flatMap((size) => {
          const given = gatherer.push(at, ramp(at, size));
          at += size;
          return given;
        });
        expect(blocks).toHaveLength(Math.floor(at / 32));
        for (const [index, block] of blocks.entries()) {
          expect(block.at).toBe(index * 32);
          expect(block.samples).toEqual(ramp(index * 32, 32));
        }
      }),
    );
  });

  it('a hole gives the short block before it away, so that both sides keep their place', () => {
    const gatherer = new BlockGatherer(4);
    expect(gatherer.push(0, ramp(0, 6)).map(({ at, samples }) => [at, [...samples]])).toEqual([[0, [0, 1, 2, 3]]]);
    expect(gatherer.push(100, ramp(100, 4)).map(({ at, samples }) => [at, [...samples]])).toEqual([
      [4, [4, 5]],
      [100, [100, 101, 102, 103]],
    ]);
  });

  it('a block that was given away is not written to again', () => {
    const gatherer = new BlockGatherer(2);
    const [first] = gatherer.push(0, ramp(0, 2));
    gatherer.push(2, ramp(50, 2));
    expect([...(first?.samples ?? [])]).toEqual([0, 1]);
  });
});
