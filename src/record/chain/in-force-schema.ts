/** What the loft's files said at the time, as a fact keeps it: people, assembly, procedure and repack rule. */
import { z } from 'zod';
import { COMPONENT_KINDS, type Assembly } from '../../domain/component/component';
import { HOLD_CLASSES, ROLES, type PersonInForce } from '../../domain/person';
import { COUNT_NOUNS, type Procedure, type Stage } from '../../domain/procedure';
import { BOUNDARIES, type RepackRule } from '../../domain/component/repack-rule';
import { SIDES, STOW_ORDERS } from '../../domain/stow/stow-plan';
import { count, date, id, line, list, quantity } from './schema-parts';

export const personInForce: z.ZodType<PersonInForce> = z.strictObject({
  id,
  nameDigest: z.string().length(64).optional(),
  certificate: line.nullable(),
  roles: z.array(z.enum(ROLES)).max(20),
  models: list(line),
  holdClasses: z.array(z.enum(HOLD_CLASSES)).max(20),
  validFrom: date,
  validTo: date,
  revoked: z.boolean(),
  badges: z.array(z.string().length(64)).max(50),
  sealMark: line.optional(),
});

export const repackRule: z.ZodType<RepackRule> = z.strictObject({
  id,
  title: line,
  interval: z.union([z.strictObject({ days: count }), z.strictObject({ months: count })]),
  boundary: z.enum(BOUNDARIES),
});

const component = z.strictObject({
  kind: z.enum(COMPONENT_KINDS),
  model: line,
  serial: id,
  otherMarks: list(line),
  uii: line.nullable().optional(),
  madeOn: date,
  inServiceOn: date.nullable(),
  lifeYearsFromMade: count.nullable(),
  lifeYearsFromService: count.nullable(),
  lastPackedOn: date.nullable(),
  lastInspectedOn: date.nullable(),
  outstanding: list(line),
  tags: list(line).optional(),
  uses: count.nullable().optional(),
});

export const assembly: z.ZodType<Assembly> = z.strictObject({
  id,
  name: line,
  model: line,
  typeAndMake: line,
  owner: z.strictObject({ name: line, address: line }),
  components: z.array(component).max(100),
  procedure: id,
  repackRule: id,
  openAt: line.nullable(),
});

const hold = z.strictObject({
  id,
  title: line,
  inspectorClass: z.enum(HOLD_CLASSES),
  inspect: list(line),
  findings: list(z.strictObject({ id, text: line, backTo: id })),
});

const stageBase = {
  id,
  number: count,
  title: line,
  steps: list(line),
  caution: line.nullable(),
  hold: hold.nullable(),
  closes: z.boolean().optional(),
};

const plan = z.strictObject({
  stows: count,
  least: count.optional(),
  bight: quantity,
  span: quantity,
  leadIn: quantity.optional(),
  line: quantity,
  lineFrom: id.nullable(),
  remainder: quantity,
  under: quantity,
  over: quantity,
  perStow: quantity.optional(),
  firstSide: z.enum(SIDES),
  alternate: z.boolean(),
  order: z.enum(STOW_ORDERS).optional(),
  viewpoint: line.optional(),
  wraps: count,
});

const target = z.discriminatedUnion('from', [
  z.strictObject({ from: z.literal('nominal'), nominal: quantity, under: quantity, over: quantity }),
  z.strictObject({ from: z.literal('remainder'), stowStage: id }),
]);

const stage: z.ZodType<Stage> = z.discriminatedUnion('kind', [
  z.strictObject({ ...stageBase, kind: z.literal('confirm') }),
  z.strictObject({ ...stageBase, kind: z.literal('count'), noun: z.enum(COUNT_NOUNS), expected: count }),
  z.strictObject({ ...stageBase, kind: z.literal('stow'), plan }),
  z.strictObject({ ...stageBase, kind: z.literal('measure'), what: line, target }),
  z.strictObject({ ...stageBase, kind: z.literal('place'), item: id }),
  z.strictObject({ ...stageBase, kind: z.literal('remove'), item: id }),
]);

export const procedure: z.ZodType<Procedure> = z.strictObject({
  id,
  title: line,
  revision: line,
  effectiveOn: date,
  models: list(line),
  components: z.array(z.strictObject({ kind: z.enum(COMPONENT_KINDS), models: list(line) })).max(100),
  tools: z.array(z.strictObject({ id, name: line, count })).max(200),
  temporaryItems: z.array(z.strictObject({ id, name: line, usedToClose: z.boolean().optional() })).max(200),
  inspection: z
    .array(z.strictObject({ component: z.enum(COMPONENT_KINDS), points: list(line) }))
    .max(20)
    .optional(),
  noHolds: line.nullable().optional(),
  stages: z.array(stage).max(500),
  finalHold: hold.optional(),
  demonstration: z.boolean().optional(),
});
