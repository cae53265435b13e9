/** When a code counts as read: two frames, three for Code 39, the deciding reader alone, once while in view. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agreementStep, NOTHING_SEEN } from '../../../src/scan/camera/agreement';
import type { Observation } from '../../../src/scan/camera/agreement';
import type { Pass } from '../../../src/scan/camera/frame';
import type { Line } from './agreement-stories';
import { code, STORIES } from './agreement-stories';

const VIEWS_IN_TURN: readonly Pass[] = ['plain', 'plain+1.5', 'plain-1.5'];

function acceptedBy(lines: readonly Line[]): string[] {
  let state = NOTHING_SEEN;
  let timeMs = 0;
  const accepted: string[] = [];
  for (const [index, line] of lines.entries()) {
    if (typeof line === 'number') {
      timeMs += line;
      continue;
    }
    const [first, second, view = VIEWS_IN_TURN[index % 3] ?? 'plain'] = line;
    const step = agreementStep(state, { timeMs, first, second, pass: second.length === 0 ? null : view });
    state = step.state;
    if (step.accepted !== null) accepted.push(`${step.accepted.payload}@${timeMs}`);
    timeMs += 50;
  }
  return accepted;
}

describe('agreement', () => {
  it.each(STORIES)('%s', (_title, lines, expected) => {
    expect(acceptedBy(lines)).toEqual(expected);
  });

  it('says when several codes are in view', () => {
    const second = [code('A-1-1', 'qr', 0.12), code('A-1-2', 'qr', 0.11)];
    const two: Observation = { timeMs: 0, first: null, second, pass: 'plain' };
    const step = agreementStep(agreementStep(NOTHING_SEEN, two).state, { ...two, timeMs: 50 });
    expect(step).toMatchObject({ accepted: null, several: true });
  });

  it('accepts only what the deciding reader read in two frames, a linear code in two views, whatever is shown', () => {
    const payloads = fc.constantFrom('A-1-1', 'A-1-2', 'A-1-3');
    const seen = fc.record({
      payload: payloads,
      symbology: fc.constantFrom('qr' as const, 'code39' as const),
      offCentre: fc.double({ min: 0, max: 0.9, noNaN: true }),
    });
    const frame = fc.record({
      gap: fc.integer({ min: 1, max: 1500 }),
      first: fc.option(payloads),
      second: fc.array(seen, { maxLength: 3 }),
      pass: fc.constantFrom<Pass>('plain', 'plain+1.5', 'crop'),
    });
    fc.assert(
      fc.property(fc.array(frame, { maxLength: 40 }), (frames) => {
        let state = NOTHING_SEEN;
        let timeMs = 0;
        const reads = new Map<string, Pass[]>();
        for (const { gap, first, second, pass } of frames) {
          timeMs += gap;
          for (const payload of new Set(second.map((one) => one.payload)))
            reads.set(payload, [...(reads.get(payload) ?? []), pass]);
          const step = agreementStep(state, { timeMs, first, second, pass: second.length === 0 ? null : pass });
          state = step.state;
          if (step.accepted === null) continue;
          const passes = reads.get(step.accepted.payload) ?? [];
          expect(passes.length).toBeGreaterThanOrEqual(2);
          if (step.accepted.symbology === 'code39') expect(new Set(passes).size).toBeGreaterThanOrEqual(2);
          expect(second).toContainEqual(step.accepted);
        }
      }),
    );
  });
});
