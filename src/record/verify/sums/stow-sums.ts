/** The verifier's own sums of a stow plan, in micrometres: it shares none with the kiosk. */
import type { Stage } from '../../../domain/procedure';
import { isNear, micrometres } from './lengths';

export type StowStage = Extract<Stage, { kind: 'stow' }>;
type Plan = StowStage['plan'];

export interface Band {
  readonly expected: number;
  readonly lowest: number;
  readonly highest: number;
}

/** Whether a stage may end with so many stows. */
export function mayEndWith({ stows, least }: Plan, made: number): boolean {
  return made <= stows && made >= (least ?? stows);
}

/** 2L + S for each stow, and the lead-in before them. */
function used({ bight, span, leadIn }: Plan, made: number): number {
  const each = 2 * micrometres(bight) + micrometres(span);
  return made * each + (leadIn === undefined ? 0 : micrometres(leadIn));
}

/** Each hand-set length off by t the same way: 2t in a bight, t in a span, t in a lead-in. */
function worst({ span, leadIn, perStow }: Plan, made: number): number {
  if (perStow === undefined) return 0;
  const each = micrometres(span) > 0 ? 3 : 2;
  const lead = leadIn !== undefined && micrometres(leadIn) > 0 ? 1 : 0;
  return micrometres(perStow) * (each * made + lead);
}

/** Around the computed remainder, as plans were judged before they said how true a stow is; nothing below zero. */
export function computedBand(plan: Plan, line: number, made: number): Band {
  const left = line - used(plan, made);
  const none = (length: number): number => Math.max(0, length);
  return {
    expected: none(left),
    lowest: none(left - micrometres(plan.under)),
    highest: none(left + micrometres(plan.over)),
  };
}

/** Around the computed remainder and inside the stated one; where the number of stows is free, as far as they stray. */
export function remainderBand(plan: Plan, line: number, made: number): Band {
  const { remainder, under, over, stows, least } = plan;
  const expected = line - used(plan, made);
  const free = least !== undefined && least < stows;
  const [below, above] = free ? [worst(plan, made), worst(plan, made)] : [micrometres(under), micrometres(over)];
  const stated = micrometres(remainder);
  return {
    expected,
    lowest: Math.max(expected - below, stated - micrometres(under)),
    highest: Math.min(expected + above, stated + micrometres(over)),
  };
}

/** Whether any length at all lies in the band, and above nothing. */
export function hasRoom({ expected, lowest, highest }: Band): boolean {
  return expected > 0 && highest > 0 && (lowest < highest || isNear(lowest, highest));
}

/** Whether less is allowed than what independent errors of all its stows come to: 2t and t of each, t of the lead-in. */
export function isTooNarrow(plan: Plan): boolean {
  const { span, leadIn, perStow, under, over, stows } = plan;
  if (perStow === undefined) return false;
  const t = micrometres(perStow);
  const lead = leadIn !== undefined && micrometres(leadIn) > 0 ? t : 0;
  const across = micrometres(span) > 0 ? t : 0;
  const spread = Math.hypot(Math.sqrt(stows) * Math.hypot(2 * t, across), lead);
  const allowed = Math.min(micrometres(under), micrometres(over));
  return allowed < spread && !isNear(allowed, spread);
}

/** Whether a stow too many, or one too few, would still lie inside what is compared. */
export function hidesStow(plan: Plan): boolean {
  const { stows, least = stows, under, over } = plan;
  const around = least < stows ? worst(plan, stows) : Math.max(micrometres(under), micrometres(over));
  return around >= used({ ...plan, leadIn: undefined }, 1);
}
