/** The written form of a procedure file: which fields there are and what each may hold. */
import { z } from 'zod';
import { COMPONENT_KINDS } from '../domain/component/component';
import { MOST_COUNTED, MOST_NUMBERED } from '../domain/enterable';
import { HOLD_CLASSES } from '../domain/person';
import { COUNT_NOUNS } from '../domain/procedure';
import { SIDES, STOW_ORDERS } from '../domain/stow/stow-plan';
import { date, id, listOf, maybe, quantity, SENTENCE_MAX, text, TITLE_MAX, whole } from './schema-parts';

/** "go to stage" takes no larger number. */
const STAGES_MAX = MOST_NUMBERED;
const LIST_MAX = 12;
const ITEMS_MAX = 40;
const MODELS_MAX = 50;

const model = text(TITLE_MAX);

const finding = z.strictObject({ id, text: text(SENTENCE_MAX), backTo: id });

const hold = z.strictObject({
  id,
  title: text(TITLE_MAX),
  inspectorClass: z.enum(HOLD_CLASSES),
  inspect: listOf(text(SENTENCE_MAX), 1, LIST_MAX),
  findings: listOf(finding, 1, LIST_MAX),
});

const common = {
  id,
  title: text(TITLE_MAX),
  steps: listOf(text(SENTENCE_MAX), 1, LIST_MAX),
  caution: maybe(text(SENTENCE_MAX)),
  hold: maybe(hold),
  closes: z.boolean().optional(),
};

const stows = whole(1, MOST_COUNTED);

const plan = z.strictObject({
  /** A fixed number, or the fewest and the most with which the wanted remainder is to be reached. */
  stows: z.union([stows, z.strictObject({ least: stows, most: stows })]),
  bight: quantity,
  span: quantity,
  leadIn: quantity.optional(),
  line: quantity,
  lineFrom: maybe(id),
  remainder: quantity,
  under: quantity,
  over: quantity,
  perStow: quantity,
  firstSide: z.enum(SIDES),
  alternate: z.boolean(),
  order: z.enum(STOW_ORDERS).optional(),
  viewpoint: text(TITLE_MAX),
  wraps: whole(1, 9),
});

const stage = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('confirm'), ...common }),
  z.strictObject({ kind: z.literal('count'), ...common, noun: z.enum(COUNT_NOUNS), expected: whole(1, MOST_COUNTED) }),
  z.strictObject({ kind: z.literal('stow'), ...common, plan }),
  z.strictObject({
    kind: z.literal('measure'),
    ...common,
    what: text(TITLE_MAX),
    /** Either a nominal with its tolerance, or the remainder of a stow stage. */
    nominal: maybe(quantity),
    under: maybe(quantity),
    over: maybe(quantity),
    remainderOf: maybe(id),
  }),
  z.strictObject({ kind: z.literal('place'), ...common, item: id }),
  z.strictObject({ kind: z.literal('remove'), ...common, item: id }),
]);

const component = z.strictObject({ kind: z.enum(COMPONENT_KINDS), models: listOf(model, 1, MODELS_MAX) });

const inspection = z.strictObject({
  component: z.enum(COMPONENT_KINDS),
  points: listOf(text(SENTENCE_MAX), 1, LIST_MAX),
});

export const procedureSchema = z.strictObject({
  id,
  title: text(TITLE_MAX),
  revision: text(24),
  effectiveOn: date,
  /** Invented: every screen, record and label says that it must not be packed by. */
  demonstration: z.boolean().optional(),
  models: listOf(model, 1, MODELS_MAX),
  components: listOf(component, 1, COMPONENT_KINDS.length),
  tools: listOf(z.strictObject({ id, name: text(TITLE_MAX), count: whole(1, 99) }), 1, ITEMS_MAX),
  temporaryItems: listOf(
    z.strictObject({ id, name: text(TITLE_MAX), usedToClose: z.boolean().optional() }),
    0,
    ITEMS_MAX,
  ),
  /** The inspection before packing; our own lists where it is left out. */
  inspection: listOf(inspection, 1, COMPONENT_KINDS.length).optional(),
  /** Why there is no hold; only where there is none. */
  noHolds: text(SENTENCE_MAX).optional(),
  stages: listOf(stage, 1, STAGES_MAX),
  /** The last look, at the signed pack with its card in the pocket. */
  finalHold: hold,
});

export type WrittenProcedure = z.infer<typeof procedureSchema>;
export type WrittenStage = WrittenProcedure['stages'][number];
