/** Measuring: a value is read back, affirmed, and compared with its band; outside it, the stage stays open. */
import { MOST_MEASURED } from '../../../../domain/enterable';
import type { ExpectedBand } from '../../../../domain/measure';
import { bandAround, deviationOf, withinBand } from '../../../../domain/measure';
import type { Procedure } from '../../../../domain/procedure';
import type { Quantity } from '../../../../domain/quantity';
import { makeQuantity } from '../../../../domain/quantity';
import { isUntil, remainderBand } from '../../../../domain/stow/stow-plan';
import { assert } from '../../../../domain/assert';
import { exampleLength, isLengthTold, isToldBefore } from '../../../words/blind';
import type { Decision } from '../../../machine/decision';
import { answer, readBackOf, refusal, remarkOn, warning } from '../../../machine/decision';
import type { Act } from '../../../machine/legal';
import { act, phraseOf } from '../../../machine/legal';
import { lineAtStart } from './stow/line-on-hand';
import type { PackState } from '../../../state/pack-state';
import { workOf } from '../../../state/pack-state';
import { stowStageOf } from './stow/ledger';
import type { MeasureView } from '../../../machine/view';
import { part } from '../../../words/prompt-parts';
import type { AtStage, StageForm, Stages, TakenBack } from '../stage-kind';
import type { Words } from '../../../words/words';
import { capital, plain, words } from '../../../words/words';

export type MeasureStage = Stages['measure'];

/** What this stage should measure, in the unit in which it is to be said. */
export function bandOf(procedure: Procedure, state: PackState, { target }: MeasureStage): ExpectedBand {
  if (target.from === 'nominal') return bandAround(target.nominal, target);
  const stow = stowStageOf(procedure, target.stowStage);
  assert(stow !== null, `stage ${target.stowStage} is a stowing stage`);
  const made = isUntil(stow.plan) ? workOf(state, stow.id).stows : stow.plan.stows;
  return remainderBand(stow.plan, lineAtStart(state, stow), made);
}

interface Measuring extends AtStage<'measure'> {
  readonly band: ExpectedBand;
}

function outsideWords({ here, stage, band }: Measuring, value: Quantity): Words {
  const { expected, lowest, highest } = band;
  const deviation = deviationOf(value, expected);
  const size = { value: Math.abs(deviation), unit: expected.unit };
  const off = deviation > 0 ? words`${size} too long` : words`${size} too short`;
  const back =
    here.context.state.correctable === null ? '' : `say ${phraseOf('correction')} to take back what was done before, `;
  return words`Outside: ${stage.what} is ${value}, ${off}. ${expected} is expected, ${lowest} to ${highest} is allowed. Measure again, ${back}or let the inspector decide.`;
}

function readBackValue(measuring: Measuring, value: Quantity): Decision {
  const { here, stage, band } = measuring;
  const { expected } = band;
  if (!(value.value >= 0 && value.value < MOST_MEASURED)) {
    return remarkOn(here, refusal(plain('That is no length that can be right. Measure again.')));
  }
  const within = withinBand(value, band);
  const deviation = deviationOf(value, expected);
  return readBackOf(here, words`${capital(stage.what)}: ${value}.`, {
    kind: 'store',
    by: here.context.state.packer,
    bodies: [{ kind: 'measured', stage: stage.id, value, expected, deviation, within }],
    remark: within ? answer(words`${value}, ${expected} expected.`) : warning(outsideWords(measuring, value)),
  });
}

/** The one act of a measuring stage. Where no unit was said, the stage's own is meant, and is read back. */
function acts(at: AtStage<'measure'>): readonly Act[] {
  const { here, procedure, stage } = at;
  const band = bandOf(procedure, here.context.state, stage);
  const { unit } = band.expected;
  const differing = { main: true, phrase: exampleLength(band), input: { kind: 'quantity', unit } } as const;
  return [
    act('measured', differing, (command) =>
      readBackValue({ ...at, band }, { value: command.value, unit: command.unit ?? unit }),
    ),
  ];
}

function view({ here, procedure, stage }: AtStage<'measure'>): MeasureView {
  const { state } = here.context;
  const { outside } = state;
  return {
    what: stage.what,
    band: isLengthTold(here, stage) ? bandOf(procedure, state, stage) : null,
    outside:
      outside?.stage === stage.id
        ? { value: outside.value, deviation: outside.deviation, unit: outside.expected.unit }
        : null,
  };
}

export const measureForm: StageForm<'measure'> = {
  acts,
  ask: ({ here, procedure, stage }) => {
    const { expected } = bandOf(procedure, here.context.state, stage);
    const told = isToldBefore(here) ? words` ${expected} expected.` : plain('');
    return [part('todo', words`${capital(stage.what)}:${told} measure, and say the length with its unit.`)];
  },
  drawing: (at) => ({ measure: view(at) }),
  isDone: (_, { measured }) => measured !== null,
  recorded: ({ what }, { measured }) => ({ what, value: measured === null ? 'missing' : makeQuantity(measured) }),
};

/** A value that lay inside its band. */
export const measuredBack: TakenBack<'measured'> = ({ value }) => words`the measured ${value}`;
