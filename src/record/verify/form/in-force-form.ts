/** The form of what the loft's files said: people, assembly, procedure and repack rule, as facts keep them. */
import type { Assembly, Component } from '../../../domain/component/component';
import type { PersonInForce } from '../../../domain/person';
import type {
  Finding,
  Hold,
  InspectionList,
  Procedure,
  Stage,
  TemporaryItem,
  ToolLine,
} from '../../../domain/procedure';
import type { Quantity } from '../../../domain/quantity';
import type { RepackRule } from '../../../domain/component/repack-rule';
import type { StowPlan } from '../../../domain/stow/stow-plan';
import { dayNumber } from '../sums/calendar';
import { absent, count, either, flag, hex, id, line, list, measure, object, oneOf, optional, orNull } from './form';
import type { Form } from './form';

export const date: Form = (value) => typeof value === 'string' && Number.isFinite(dayNumber(value));
export const nouns = oneOf(['stows', 'tools', 'lines', 'gores', 'cells', 'wraps', 'ties', 'bands']);
export const kinds = oneOf(['bag', 'container', 'canopy']);
export const sides = oneOf(['left', 'right']);
const units = oneOf(['in', 'ft', 'cm', 'mm']);
const holdClasses = oneOf(['in-process', 'closing', 'final']);
const roles = oneOf(['rigger', 'inspector', 'lead', 'trainee', 'clerk']);

export const quantity = object<Quantity>({ value: measure, unit: units });

export const person = object<PersonInForce>({
  id,
  nameDigest: optional(hex),
  certificate: orNull(line),
  roles: list(roles, 20),
  models: list(line),
  holdClasses: list(holdClasses, 20),
  validFrom: date,
  validTo: date,
  revoked: flag,
  badges: list(hex, 50),
  sealMark: optional(line),
});

export const rule = object<RepackRule>({
  id,
  title: line,
  interval: either(object<{ days: number }>({ days: count }), object<{ months: number }>({ months: count })),
  boundary: oneOf(['inclusive', 'exclusive']),
});

const component = object<Component>({
  kind: kinds,
  model: line,
  serial: id,
  otherMarks: list(line),
  uii: optional(orNull(line)),
  madeOn: date,
  inServiceOn: orNull(date),
  lifeYearsFromMade: orNull(count),
  lifeYearsFromService: orNull(count),
  lastPackedOn: orNull(date),
  lastInspectedOn: orNull(date),
  outstanding: list(line),
  tags: optional(list(line)),
  uses: optional(orNull(count)),
});

export const assembly = object<Assembly>({
  id,
  name: line,
  model: line,
  typeAndMake: line,
  owner: object<Assembly['owner']>({ name: line, address: line }),
  components: list(component, 100),
  procedure: id,
  repackRule: id,
  openAt: orNull(line),
});

const hold = object<Hold>({
  id,
  title: line,
  inspectorClass: holdClasses,
  inspect: list(line),
  findings: list(object<Finding>({ id, text: line, backTo: id })),
});

const plan = object<StowPlan>({
  stows: count,
  bight: quantity,
  span: quantity,
  line: quantity,
  lineFrom: orNull(id),
  remainder: quantity,
  under: quantity,
  over: quantity,
  firstSide: sides,
  alternate: flag,
  wraps: count,
  least: optional(count),
  leadIn: optional(quantity),
  perStow: optional(quantity),
  order: optional(oneOf(['inTurn', 'centreOut'])),
  viewpoint: optional(line),
});

type StageOf<K extends Stage['kind']> = Extract<Stage, { kind: K }>;
type TargetOf<K extends string> = Extract<StageOf<'measure'>['target'], { from: K }>;

const base = {
  id,
  number: count,
  title: line,
  steps: list(line),
  caution: orNull(line),
  hold: orNull(hold),
  closes: optional(flag),
};

const target = either(
  object<TargetOf<'nominal'>>({ from: oneOf(['nominal']), nominal: quantity, under: quantity, over: quantity }),
  object<TargetOf<'remainder'>>({ from: oneOf(['remainder']), stowStage: id }),
);

const stage = either(
  object<StageOf<'confirm'>>({ ...base, kind: oneOf(['confirm']) }),
  object<StageOf<'count'>>({ ...base, kind: oneOf(['count']), noun: nouns, expected: count }),
  object<StageOf<'stow'>>({ ...base, kind: oneOf(['stow']), plan }),
  object<StageOf<'measure'>>({ ...base, kind: oneOf(['measure']), what: line, target }),
  object<StageOf<'place'>>({ ...base, kind: oneOf(['place']), item: id }),
  object<StageOf<'remove'>>({ ...base, kind: oneOf(['remove']), item: id }),
);

export const procedure = object<Procedure>({
  id,
  title: line,
  revision: line,
  effectiveOn: date,
  models: list(line),
  components: list(object<Procedure['components'][number]>({ kind: kinds, models: list(line) }), 100),
  tools: list(object<ToolLine>({ id, name: line, count }), 200),
  temporaryItems: list(object<TemporaryItem>({ id, name: line, usedToClose: optional(flag) }), 200),
  stages: list(stage, 500),
  finalHold: optional(hold),
  inspection: optional(list(object<InspectionList>({ component: kinds, points: list(line) }), 20)),
  noHolds: optional(orNull(line)),
  demonstration: optional(flag),
  digest: absent,
});
