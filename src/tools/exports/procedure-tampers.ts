/** Lies in the procedure itself, told from its agreement on, so that its digest and everything packed by it fit. */
import type { Fact } from '../../domain/fact';
import type { Procedure, Stage } from '../../domain/procedure';
import type { StowPlan } from '../../domain/stow/stow-plan';
import { procedureDigest } from '../../kiosk/record/in-force';
import { remakeText } from './remake';
import type { Tamper } from './tamper';

/** The static line procedure was always another one, in every pack that followed it. */
function always(facts: readonly Fact[], change: (procedure: Procedure) => Procedure): readonly Fact[] {
  const ID = 'wendle-r7-static-line';
  const held = facts.find(({ body }) => body.kind === 'procedureInForce' && body.procedure?.id === ID);
  if (held?.body.kind !== 'procedureInForce' || held.body.procedure === null) throw new Error('the story follows it');
  const procedure = change(held.body.procedure);
  const digest = procedureDigest(procedure);
  return facts.map((fact): Fact => {
    const { body } = fact;
    if (body.kind === 'procedureInForce' && body.procedure?.id === ID) return { ...fact, body: { ...body, procedure } };
    return body.kind === 'assemblyAgreed' && body.procedure === ID ? { ...fact, body: { ...body, digest } } : fact;
  });
}

interface Row {
  readonly name: string;
  readonly done: string;
  readonly finds: Tamper['finds'];
  readonly change: (procedure: Procedure) => Procedure;
}

const lie = ({ change, ...row }: Row): Tamper => ({
  ...row,
  make: ({ file, signer }) =>
    remakeText(
      always(
        file.facts.map(({ fact }) => fact),
        change,
      ),
      signer,
    ),
});

const staged = (change: (stage: Stage) => Stage) => (procedure: Procedure) => ({
  ...procedure,
  stages: procedure.stages.map(change),
});

const planned = (id: string, change: (plan: StowPlan) => StowPlan) =>
  staged((stage) => (stage.kind === 'stow' && stage.id === id ? { ...stage, plan: change(stage.plan) } : stage));

function without(plan: StowPlan, member: 'perStow' | 'viewpoint'): StowPlan {
  return Object.fromEntries(Object.entries(plan).filter(([name]) => name !== member)) as unknown as StowPlan;
}

export const PROCEDURE_TAMPERS: readonly Tamper[] = [
  lie({
    name: 'no-per-stow',
    done: 'The plan by which was packed does not say how true a stow is, so that it may promise anything.',
    finds: 'stow',
    change: planned('line-stows', (plan) => without(plan, 'perStow')),
  }),
  lie({
    name: 'no-viewpoint',
    done: 'The plan by which was packed does not say whose left and right are meant.',
    finds: 'stow',
    change: planned('line-stows', (plan) => without(plan, 'viewpoint')),
  }),
  lie({
    name: 'remainder-unmeasured',
    done: 'What the line stows left was measured as a length of its own, not as their remainder.',
    finds: 'measure',
    change: (procedure) => {
      const stow = procedure.stages.find(({ id }) => id === 'line-stows');
      if (stow?.kind !== 'stow') throw new Error('the procedure has line stows');
      const { remainder, under, over } = stow.plan;
      return staged((stage) =>
        stage.kind === 'measure' && stage.id === 'link-line'
          ? { ...stage, target: { from: 'nominal', nominal: remainder, under, over } }
          : stage,
      )(procedure);
    },
  }),
  lie({
    name: 'nothing-may-remain',
    done: 'The plan by which was packed lets a remainder through that is nothing.',
    finds: 'stow',
    change: planned('line-stows', (plan) => ({ ...plan, under: plan.remainder })),
  }),
  lie({
    name: 'no-holds-and-holds',
    done: 'The procedure gives a reason for having no hold, and has some.',
    finds: 'hold',
    change: (procedure) => ({ ...procedure, noHolds: 'A cargo load, and nobody rides on it.' }),
  }),
];
