/** What the verifier demands of the procedure by which was packed, and since when. */
import { describe, expect, it } from 'vitest';
import type { Hold, Procedure, Stage } from '../../../../src/domain/procedure';
import type { StowPlan } from '../../../../src/domain/stow/stow-plan';
import { againstRules } from '../../../../src/record/verify/pack/procedure-rules';
import { SPRAT } from '../../../packing/fixture';
import { findingsOf } from '../remade-story';

const inches = (value: number) => ({ value, unit: 'in' as const });

/** 100 in, less six stows of 13 1/2 in each, leaves 19 in. */
const plan = (differing: Partial<StowPlan>): Procedure => ({
  ...SPRAT,
  stages: SPRAT.stages.map((stage): Stage =>
    stage.kind === 'stow' ? { ...stage, plan: { ...stage.plan, ...differing } } : stage,
  ),
});
const stages = (change: (stages: readonly Stage[]) => readonly Stage[]): Procedure => ({
  ...SPRAT,
  stages: change(SPRAT.stages),
});
const holdsAs = (hold: Hold | null, noHolds?: string | null): Procedure => ({
  ...SPRAT,
  noHolds,
  stages: SPRAT.stages.map((stage) => ({ ...stage, hold })),
});

const [stow] = SPRAT.stages.filter(({ kind }) => kind === 'stow');
const [rest] = SPRAT.stages.filter(({ id }) => id === 'rest');
if (stow === undefined || rest === undefined) throw new Error('the procedure stows and measures');

describe('a procedure that holds together', () => {
  it.each<[string, Procedure]>([
    ['with a fixed number of stows', SPRAT],
    ['with a free one', plan({ least: 3, stows: 7, remainder: inches(19) })],
    ['without holds, for a reason', holdsAs(null, 'Nobody rides on it.')],
    ['stowed twice, measured after each', stages((all) => [...all, { ...stow, id: 'more' }, again()])],
  ])('%s: nothing is found', (_, procedure) => expect(againstRules(procedure)).toEqual([]));
});

function again(): Stage {
  return { ...rest, id: 'more-rest', target: { from: 'remainder', stowStage: 'more' } } as Stage;
}

describe('a procedure that does not', () => {
  it.each<[string, Procedure, string, RegExp]>([
    ['how true a stow is', plan({ perStow: undefined }), 'stow', /stows does not say how true/],
    ['how true a stow is, as nothing', plan({ perStow: inches(0) }), 'stow', /how true/],
    ['whose left', plan({ viewpoint: undefined }), 'stow', /whose left and right/],
    ['whose left, as white space', plan({ viewpoint: ' ' }), 'stow', /whose left and right/],
    ['nothing may remain', plan({ remainder: inches(3), line: inches(84) }), 'stow', /no line at all may remain/],
    ['another sum', plan({ line: inches(110) }), 'stow', /with no number of stows/],
    ['another sum, free', plan({ least: 4, stows: 5, line: inches(120) }), 'stow', /with no number of stows/],
    ['fewest above most', plan({ least: 7 }), 'stow', /has no number of stows/],
    ['more stows than are counted', plan({ stows: 1_000_000, least: 1 }), 'stow', /has no number of stows/],
    ['too narrow', plan({ under: inches(0.5) }), 'stow', /more than its stows come out with/],
    ['a stow too many', plan({ over: inches(13.5) }), 'stow', /a stow too many would not show/],
    ['not measured', stages((all) => all.filter(({ id }) => id !== 'rest')), 'measure', /nobody measures/],
    [
      'measured after more was stowed',
      stages((all) => [
        ...all.filter(({ id }) => id !== 'rest'),
        { ...stow, id: 'more' },
        { ...rest, id: 'late' },
        again(),
      ]),
      'measure',
      /nobody measures what stage stows leaves/,
    ],
    [
      'another one measured',
      stages((all) => [...all.filter(({ id }) => id !== 'rest'), again()]),
      'measure',
      /nobody measures what stage stows leaves/,
    ],
    ['no hold, no reason', holdsAs(null), 'hold', /no hold between its stages, and no reason why/],
    ['no hold, no reason, as null', holdsAs(null, null), 'hold', /no hold between its stages, and no reason why/],
    ['no hold, an empty reason', holdsAs(null, ' '), 'hold', /no hold between its stages, and no reason why/],
    ['holds and a reason', { ...SPRAT, noHolds: 'Nobody rides on it.' }, 'hold', /and a reason for having none/],
  ])('%s', (...[, procedure, what, detail]) => {
    expect(againstRules(procedure)).toContainEqual({ what, detail: expect.stringMatching(detail) as string });
  });
});

describe('in a journal', () => {
  /** As packs of the first edition were stored: their plans did not say how true a stow is. */
  const asBefore = (edition: number) =>
    findingsOf((fact) => {
      const { body } = fact;
      if (body.kind === 'packOpened') return { ...fact, body: { ...body, edition } };
      if (body.kind !== 'procedureInForce' || body.procedure === null) return fact;
      const bare = body.procedure.stages.map((stage): Stage => {
        if (stage.kind !== 'stow') return stage;
        const older = Object.entries(stage.plan).filter(([name]) => name !== 'perStow' && name !== 'viewpoint');
        return { ...stage, plan: Object.fromEntries(older) as unknown as StowPlan };
      });
      return { ...fact, body: { ...body, procedure: { ...body.procedure, stages: bare } } };
    });

  it('each fault is told with its fact', async () => {
    const found = await asBefore(2);
    expect(found).toContainEqual(expect.stringMatching(/^Fact \d+: the plan of stage .* how true a stow is\.$/));
    expect(found).toContainEqual(expect.stringMatching(/^Fact \d+: the plan of stage .* whose left and right .*\.$/));
  });

  it('nothing of this is demanded of the first edition', async () => {
    expect((await asBefore(1)).filter((detail) => detail.includes('the plan of stage'))).toEqual([]);
  });

  it('a stowing that ends where no length could be right any more is found', async () => {
    const found = await findingsOf((fact) => {
      const { body } = fact;
      // Twelve inches more than can be stowed away: everything measured later fits neither.
      return body.kind === 'measured' && body.stage === 'line-left'
        ? { ...fact, body: { ...body, value: { ...body.value, value: body.value.value + 12 } } }
        : fact;
    });
    expect(found).toContainEqual(
      expect.stringMatching(/^Fact \d+ ends stage line-stows, after which nothing can be right\.$/),
    );
  });
});
