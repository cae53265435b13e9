/** Measuring: a value is read back, affirmed, and compared with its band; outside it, the stage stays open. */
import { MOST_MEASURED } from '../../../domain/enterable';
import { deviationOf, withinBand } from '../../../domain/measure';
import type { Procedure, Stage } from '../../../domain/procedure';
import type { Quantity } from '../../../domain/quantity';
import { add, subtract } from '../../../domain/quantity';
import { isUntil, remainderBand } from '../../../domain/stow-plan';
import { assert } from '../../../domain/assert';
import { exampleLength } from '../../words/blind';
import type { Here } from '../../machine/context';
import type { Decision } from '../../machine/decision';
import { answer, readBackOf, refusal, remarkOn, warning } from '../../machine/decision';
import type { Act } from '../../machine/legal';
import { act, phraseOf } from '../../machine/legal';
import { lineAtStart } from './line-on-hand';
import type { PackState } from '../../state/pack-state';
import { workOf } from '../../state/pack-state';
import { stowStageOf } from './stow-work';
import type { Words } from '../../words/words';
import { capital, plain, words } from '../../words/words';

export type MeasureStage = Extract<Stage, { kind: 'measure' }>;

export interface Band {
  readonly expected: Quantity;
  readonly lowest: Quantity;
  readonly highest: Quantity;
}

/** What this stage should measure, in the unit in which it is to be said. */
export function bandOf(procedure: Procedure, state: PackState, { target }: MeasureStage): Band {
  if (target.from === 'nominal') {
    const { nominal, under, over } = target;
    return { expected: nominal, lowest: subtract(nominal, under), highest: add(nominal, over) };
  }
  const stow = stowStageOf(procedure, target.stowStage);
  assert(stow !== null, `stage ${target.stowStage} is a stowing stage`);
  const made = isUntil(stow.plan) ? workOf(state, stow.id).stows : stow.plan.stows;
  return remainderBand(stow.plan, lineAtStart(state, stow), made);
}

function outsideWords(here: Here, stage: MeasureStage, value: Quantity, band: Band): Words {
  const { expected, lowest, highest } = band;
  const deviation = deviationOf(value, expected);
  const size = { value: Math.abs(deviation), unit: expected.unit };
  const off = deviation > 0 ? words`${size} too long` : words`${size} too short`;
  const back =
    here.context.state.correctable === null ? '' : `say ${phraseOf('correction')} to take back what was done before, `;
  return words`Outside: ${stage.what} is ${value}, ${off}. ${expected} is expected, ${lowest} to ${highest} is allowed. Measure again, ${back}or let the inspector decide.`;
}

function readBackValue(here: Here, stage: MeasureStage, band: Band, value: Quantity): Decision {
  const { expected, lowest, highest } = band;
  if (!(value.value >= 0 && value.value < MOST_MEASURED)) {
    return remarkOn(here, refusal(plain('That is no length that can be right. Measure again.')));
  }
  const within = withinBand(value, lowest, highest);
  const deviation = deviationOf(value, expected);
  return readBackOf(here, words`${capital(stage.what)}: ${value}.`, {
    kind: 'store',
    by: here.context.state.packer,
    bodies: [{ kind: 'measured', stage: stage.id, value, expected, deviation, within }],
    remark: within ? answer(words`${value}, ${expected} expected.`) : warning(outsideWords(here, stage, value, band)),
  });
}

/** The one act of a measuring stage. Where no unit was said, the stage's own is meant, and is read back. */
export function measureActs(here: Here, procedure: Procedure, stage: MeasureStage): readonly Act[] {
  const band = bandOf(procedure, here.context.state, stage);
  const { unit } = band.expected;
  const differing = { main: true, phrase: exampleLength(band), input: { kind: 'quantity', unit } } as const;
  return [
    act('measured', differing, (command) =>
      readBackValue(here, stage, band, { value: command.value, unit: command.unit ?? unit }),
    ),
  ];
}
