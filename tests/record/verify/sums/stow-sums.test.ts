/** The verifier's own sums of a stow plan with a free number of stows, worked by hand in inches. */
import { describe, expect, it } from 'vitest';
import {
  hasRoom,
  hidesStow,
  isTooNarrow,
  mayEndWith,
  remainderBand,
  type StowStage,
} from '../../../../src/record/verify/sums/stow-sums';

type Plan = StowStage['plan'];

const inches = (value: number) => ({ value, unit: 'in' as const });
/** 1 in is 25,400 micrometres. */
const um = (value: number): number => value * 25_400;

/** A stow takes 2 x 3 + 4 = 10 in; 2 in lie before the first; 24 to 36 in are wanted. */
const PLAN: Plan = {
  stows: 6,
  least: 4,
  bight: inches(3),
  span: inches(4),
  leadIn: inches(2),
  line: inches(80),
  lineFrom: null,
  remainder: inches(30),
  under: inches(6),
  over: inches(6),
  perStow: inches(0.125),
  firstSide: 'left',
  alternate: true,
  viewpoint: 'as seen from the mouth of the bag',
  wraps: 1,
};

describe('a free number of stows', () => {
  it.each([
    [3, false],
    [4, true],
    [6, true],
    [7, false],
  ])('%i stows: may end %s', (made, may) => expect(mayEndWith(PLAN, made)).toBe(may));

  it.each<[string, Partial<Plan>, number, readonly [number, number, number]]>([
    // 80 - 2 - 50 = 28. Each bight may be off by 1/8 twice, each span once: 5 x 3/8, and 1/8 for the lead-in, 2 in.
    ['five stows from 80 in', {}, 5, [28, 26, 30]],
    // 80 - 50 = 30; 5 x 3/8 = 1 7/8 in.
    ['without a lead-in', { leadIn: undefined }, 5, [30, 28.125, 31.875]],
    // 80 - 2 - 30 = 48 with u = 6; 5 x 2/8 + 1/8 = 1 3/8, and 36 in at most are wanted.
    ['without a span', { span: inches(0) }, 5, [48, 46.625, 36]],
    // 80 - 2 - 40 = 38; 4 x 3/2 + 1/2 = 6 1/2, above which 36 in cuts off.
    ['four rough stows, cut off at what is wanted', { perStow: inches(0.5) }, 4, [38, 31.5, 36]],
    // 80 - 2 - 60 = 18; 6 x 3/2 + 1/2 = 9 1/2, below which 24 in cuts off.
    ['six rough stows, cut off at what is wanted', { perStow: inches(0.5) }, 6, [18, 24, 27.5]],
  ])('%s', (...[, differing, made, [expected, lowest, highest]]) => {
    const band = remainderBand({ ...PLAN, ...differing }, um(80), made);
    expect(band.expected).toBeCloseTo(um(expected), 3);
    expect(band.lowest).toBeCloseTo(um(lowest), 3);
    expect(band.highest).toBeCloseTo(um(highest), 3);
  });

  it('starts from the line that was measured, not from the planned one', () => {
    expect(remainderBand(PLAN, um(82), 5).expected).toBeCloseTo(um(30), 3);
  });

  it.each([
    // 38 in less 1 5/8 is more than 36; 18 in and 2 3/8 are less than 24.
    ['four stows leave too much', 4, false],
    ['five do not', 5, true],
    ['six leave too little', 6, false],
  ])('%s', (_, made, room) => expect(hasRoom(remainderBand(PLAN, um(80), made))).toBe(room));

  it('leaves no room where the line has run out, whatever is stated', () => {
    // 50 - 2 - 50 is less than nothing.
    const any = { ...PLAN, remainder: inches(1), under: inches(1), over: inches(40) };
    expect(hasRoom(remainderBand(any, um(50), 5))).toBe(false);
  });

  it.each<[string, Partial<Plan>, boolean]>([
    // 1/8 x sqrt(6 x 5 + 1) = 0.69597 in.
    ['0.70 in each way', { under: inches(0.7), over: inches(0.7) }, false],
    ['0.69 in under', { under: inches(0.69) }, true],
    ['0.69 in over', { over: inches(0.69) }, true],
    // 1/8 x sqrt(6 x 4) = 0.61237 in.
    ['0.62 in, without span and lead-in', { span: inches(0), leadIn: undefined, under: inches(0.62) }, false],
    ['0.61 in, without span and lead-in', { span: inches(0), leadIn: undefined, under: inches(0.61) }, true],
    ['any, where a plan does not say how true a stow is', { perStow: undefined, under: inches(0) }, false],
  ])('promises too much: %s', (_, differing, narrow) => expect(isTooNarrow({ ...PLAN, ...differing })).toBe(narrow));

  it.each<[string, Partial<Plan>, boolean]>([
    // At worst 6 x 3/8 + 1/8 = 2 3/8 in, of 10 in.
    ['true stows', {}, false],
    // 6 x 3/2 + 1/2 = 9 1/2 in; 19 x 0.53 = 10.07 in.
    ['rough stows', { perStow: inches(0.5) }, false],
    ['stows that may be off by 0.53 in', { perStow: inches(0.53) }, true],
    ['a fixed number, 9 15/16 in allowed', { least: undefined, under: inches(9.9375) }, false],
    ['a fixed number, 10 in allowed', { least: undefined, over: inches(10) }, true],
  ])('hides a stow too many: %s', (_, differing, hides) => expect(hidesStow({ ...PLAN, ...differing })).toBe(hides));
});
