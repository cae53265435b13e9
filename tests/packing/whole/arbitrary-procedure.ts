/** Small procedures as files, made at random: most of them sound, some a little off, none checked here. */
import fc from 'fast-check';

type Written = Readonly<Record<string, unknown>>;

const said = (value: number, unit: string): string => `${String(value)} ${unit}`;
const whole = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });
/** In quarters, which can be entered in inches and in centimetres. */
const quarters = (min: number, max: number): fc.Arbitrary<number> => whole(min * 4, max * 4).map((n) => n / 4);
const named = (kind: string, id: string): Written => ({ id, kind, title: `Stage ${id}`, steps: [`Do ${id}.`] });

/** What a part of the work is made of; names and numbers are put on when all parts are known. */
type Part = (at: number) => readonly Written[];

const CONFIRM = fc.constant<Part>((at) => [named('confirm', `lay-${String(at)}`)]);

const COUNT = fc
  .tuple(fc.constantFrom('cells', 'lines', 'bands'), whole(1, 40))
  .map(([noun, expected]): Part => (at) => [{ ...named('count', `count-${String(at)}`), noun, expected }]);

const measureOf = (id: string, more: Written): Written => ({ ...named('measure', id), what: `length ${id}`, ...more });

const PLAN = fc.record({
  bight: quarters(2, 8),
  span: quarters(0, 6),
  leadIn: fc.option(quarters(1, 9), { nil: undefined }),
  perStow: fc.constantFrom(0.125, 0.125, 0.25, 0.5),
  most: whole(1, 9),
  /** How many fewer may do; none for a fixed number. */
  fewer: fc.oneof(fc.constant(0), whole(1, 4)),
  remainder: quarters(8, 60),
  under: quarters(1, 9),
  over: quarters(1, 9),
  /** By how much the planned line misses what the plan would leave. */
  amiss: fc.oneof({ weight: 4, arbitrary: fc.constant(0) }, quarters(-3, 3)),
  alternate: fc.boolean(),
  firstSide: fc.constantFrom('left', 'right'),
  order: fc.constantFrom('inTurn', 'centreOut', undefined),
});
type Plan = typeof PLAN extends fc.Arbitrary<infer T> ? T : never;

/** Line that a plan takes if it is stowed with so many stows, and what it leaves. */
const taken = ({ bight, span, leadIn = 0, remainder }: Plan, stows: number): number =>
  stows * (2 * bight + span) + leadIn + remainder;

function writtenPlan(plan: Plan, unit: string, lineFrom: string | undefined): Written & { readonly line: string } {
  const { bight, span, leadIn, perStow, most, fewer, remainder, under, over, amiss, ...rest } = plan;
  const least = Math.max(1, most - fewer);
  return {
    ...rest,
    stows: least < most ? { least, most } : most,
    bight: said(bight, unit),
    span: said(span, unit),
    ...(leadIn === undefined ? {} : { leadIn: said(leadIn, unit) }),
    perStow: said(perStow, unit),
    line: said(taken(plan, most - Math.floor((most - least) / 2)) + amiss, unit),
    ...(lineFrom === undefined ? {} : { lineFrom }),
    remainder: said(remainder, unit),
    under: said(under, unit),
    over: said(over, unit),
    viewpoint: 'as seen from the mouth of the bag',
    wraps: 1,
  };
}

/** Stows and the measure of what they leave, once or twice, the second time from the line that was measured. */
const STOWING = fc
  .record({
    first: PLAN,
    second: fc.option(PLAN),
    unit: fc.constantFrom('in', 'in', 'cm'),
    measuredBefore: fc.option(fc.tuple(quarters(0, 1), quarters(0, 1))),
    measuredAfter: fc.oneof({ weight: 12, arbitrary: fc.constant(true) }, fc.constant(false)),
  })
  .map(({ first, second, unit, measuredBefore, measuredAfter }): Part => (at) => {
    const id = (name: string): string => `${name}-${String(at)}`;
    // The first plan leaves what the second one takes.
    const chained = second === null ? first : { ...first, remainder: taken(second, second.most) + second.amiss };
    const plan = writtenPlan(chained, unit, measuredBefore === null ? undefined : id('line'));
    const tolerance = ([under, over]: readonly [number, number]): Written => ({
      under: said(under, unit),
      over: said(over, unit),
    });
    const before =
      measuredBefore === null ? [] : [measureOf(id('line'), { nominal: plan.line, ...tolerance([...measuredBefore]) })];
    const stow = (name: string, of: Written): Written => ({ ...named('stow', id(name)), plan: of });
    const rest = (name: string, of: string): Written => measureOf(id(name), { remainderOf: id(of) });
    if (second === null) return [...before, stow('stows', plan), ...(measuredAfter ? [rest('rest', 'stows')] : [])];
    const more = { ...writtenPlan(second, unit, id('rest')), line: said(chained.remainder, unit) };
    return [
      ...before,
      stow('stows', plan),
      rest('rest', 'stows'),
      stow('more', more),
      ...(measuredAfter ? [rest('end', 'more')] : []),
    ];
  });

/** What is put in comes out behind the parts between, or is forgotten. */
const ITEM = fc
  .tuple(fc.array(fc.oneof(CONFIRM, COUNT), { maxLength: 2 }), fc.integer({ min: 0, max: 11 }))
  .map(([between, forgotten]): Part => (at) => {
    const item = `tie-${String(at)}`;
    const removed = { ...named('remove', `out-${String(at)}`), item };
    return [
      { ...named('place', `in-${String(at)}`), item },
      ...between.flatMap((part, index) => part(at * 10 + 100 + index)),
      ...(forgotten === 0 ? [] : [removed]),
    ];
  });

/** What is put in before the container is closed, because it is closed with it, and comes out after that. */
const CLOSING_ITEM = fc.record({
  usedToClose: fc.oneof({ weight: 5, arbitrary: fc.constant(true) }, fc.constant(false)),
});

const holdOf = (id: string, inspectorClass: string, backTo: string): Written => {
  const findings = [{ id: 'wrong', text: `${id} is wrong`, backTo }];
  return { id: `hold-${id}`, title: `Hold ${id}`, inspectorClass, inspect: ['All of it.'], findings };
};
const holdAfter = (stage: Written, inspectorClass: string): Written => {
  const id = String(stage['id']);
  return { ...stage, hold: holdOf(id, inspectorClass, id) };
};

/** The text of a procedure file whose id is `made`; JSON, which is YAML too. */
export const ARBITRARY_PROCEDURE: fc.Arbitrary<string> = fc
  .record({
    parts: fc.array(fc.oneof(CONFIRM, COUNT, ITEM, { weight: 8, arbitrary: STOWING }), { minLength: 1, maxLength: 2 }),
    held: fc.nat(9),
    holds: fc.oneof({ weight: 8, arbitrary: fc.constant(true) }, fc.constant(false)),
    noHolds: fc.oneof({ weight: 8, arbitrary: fc.constant(null) }, fc.constant('Nobody rides on it.')),
    cord: fc.option(CLOSING_ITEM),
  })
  .map(({ parts, held, holds, noHolds, cord }) => {
    const work = parts.flatMap((part, index) => part(index + 1));
    const stages = work.map((one, at) => (holds && at === held ? holdAfter(one, 'in-process') : one));
    const items = stages.flatMap(({ kind, item }) => (kind === 'place' ? [String(item)] : []));
    const reason = noHolds ?? (holds ? null : 'Nobody rides on it.');
    const closing = { ...named('confirm', 'close'), closes: true };
    const [cordIn, cordOut] =
      cord === null
        ? [[], []]
        : [
            [{ ...named('place', 'cord-in'), item: 'cord' }],
            [{ ...named('remove', 'cord-out'), item: 'cord', closes: true }],
          ];
    return JSON.stringify({
      id: 'made',
      title: 'Made at random',
      revision: '1',
      effectiveOn: '2026-01-01',
      models: ['Sprat'],
      components: [
        { kind: 'bag', models: ['SB'] },
        { kind: 'container', models: ['SC'] },
        { kind: 'canopy', models: ['SK'] },
      ],
      tools: [{ id: 'paddle', name: 'Packing paddle', count: 2 }],
      temporaryItems: [
        ...items.map((item) => ({ id: item, name: item.replace('-', ' ') })),
        ...(cord === null ? [] : [{ id: 'cord', name: 'closing cord', ...cord }]),
      ],
      ...(reason === null ? {} : { noHolds: reason }),
      stages: [...stages, ...cordIn, holds ? holdAfter(closing, 'closing') : closing, ...cordOut],
      finalHold: holdOf('last', 'final', 'signature'),
    });
  });
