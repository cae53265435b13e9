/** A small invented loft in which every kind of stage, hold, tool and temporary item occurs, and every kind of person. */
import type { Assembly, Component, ComponentKind } from '../../src/domain/component/component';
import type { Loft } from '../../src/domain/loft';
import type { Person } from '../../src/domain/person';
import type { Hold, Procedure, Stage } from '../../src/domain/procedure';
import { textDigest } from '../../src/record/chain/text-digest';

/** The day on which every story begins. */
export const DAY = '2026-11-25';

const inches = (value: number) => ({ value, unit: 'in' as const });

const hold = (
  id: string,
  inspectorClass: Hold['inspectorClass'],
  { title, findings }: Pick<Hold, 'title' | 'findings'>,
): Hold => ({
  id,
  title,
  inspectorClass,
  inspect: [`${title} as the procedure says`],
  findings,
});

const base = (number: number, [id, title]: readonly [string, string], after: Hold | null = null) => ({
  id,
  number,
  title,
  steps: [`Do what ${title} asks.`],
  caution: null,
  hold: after,
});

const layout = hold('layout', 'in-process', {
  title: 'Layout',
  findings: [
    { id: 'twist', text: 'Cells twisted', backTo: 'cells' },
    { id: 'loose', text: 'Tie loose', backTo: 'tie' },
  ],
});
const stowing = hold('stowing', 'in-process', {
  title: 'Stowing',
  findings: [
    { id: 'long', text: 'Stow too long', backTo: 'stows' },
    { id: 'crossed', text: 'Line crossed', backTo: 'line' },
  ],
});
const closing = hold('closing', 'closing', {
  title: 'Closing',
  findings: [
    { id: 'fold', text: 'Fold too wide', backTo: 'untie' },
    { id: 'cells', text: 'Cells uneven', backTo: 'cells' },
  ],
});

const last = hold('last', 'final', {
  title: 'Finished pack',
  findings: [
    { id: 'flap', text: 'Flap open', backTo: 'close' },
    { id: 'card', text: 'Card wrong', backTo: 'signature' },
  ],
});

/** 100 in of line, less six stows of 2 x 4 + 5 1/2 = 13 1/2 in each, leaves 19 in. */
const stages: readonly Stage[] = [
  { ...base(1, ['lay', 'Lay out']), kind: 'confirm', caution: 'Keep off the lines' },
  { ...base(2, ['cells', 'Count the cells']), kind: 'count', noun: 'cells', expected: 7 },
  { ...base(3, ['tie', 'Tie the nose'], layout), kind: 'place', item: 'noseTie' },
  {
    ...base(4, ['line', 'Measure the line']),
    kind: 'measure',
    what: 'the line',
    target: { from: 'nominal', nominal: inches(100), under: inches(2), over: inches(2) },
  },
  {
    ...base(5, ['stows', 'Stow the line']),
    kind: 'stow',
    plan: {
      stows: 6,
      bight: inches(4),
      span: inches(5.5),
      line: inches(100),
      lineFrom: 'line',
      remainder: inches(19),
      under: inches(3),
      over: inches(3),
      perStow: inches(0.125),
      firstSide: 'left',
      alternate: true,
      viewpoint: 'as seen from the mouth of the bag',
      wraps: 2,
    },
  },
  {
    ...base(6, ['rest', 'Measure the rest'], stowing),
    kind: 'measure',
    what: 'the rest of the line',
    target: { from: 'remainder', stowStage: 'stows' },
  },
  { ...base(7, ['untie', 'Untie the nose']), kind: 'remove', item: 'noseTie' },
  { ...base(8, ['close', 'Close the bag'], closing), kind: 'confirm', closes: true },
];

export const SPRAT: Procedure = {
  id: 'sprat',
  title: 'Sprat main',
  revision: 'C',
  effectiveOn: '2026-01-01',
  models: ['Sprat', 'Old Sprat'],
  components: [
    { kind: 'bag', models: ['SB'] },
    { kind: 'container', models: ['SC'] },
    { kind: 'canopy', models: ['SK'] },
  ],
  tools: [
    { id: 'paddle', name: 'Packing paddle', count: 2 },
    { id: 'cord', name: 'Pull-up cord', count: 1 },
  ],
  temporaryItems: [{ id: 'noseTie', name: 'nose tie' }],
  stages,
  finalHold: last,
};

const LATER: Procedure = { ...SPRAT, id: 'later', effectiveOn: '2026-11-26' };
const NARROW: Procedure = { ...SPRAT, id: 'narrow', models: ['Pike'] };

const person = (id: string, differing: Partial<Person>): Person => ({
  id,
  name: id.charAt(0).toUpperCase() + id.slice(1),
  certificate: `C-${id}`,
  roles: [],
  models: ['Sprat'],
  holdClasses: ['in-process', 'closing', 'final'],
  validFrom: '2026-01-01',
  validTo: '2026-12-31',
  revoked: false,
  badges: [textDigest(`B-${id}`)],
  ...differing,
});

export const PEOPLE: readonly Person[] = [
  person('ada', { roles: ['rigger'], badges: [textDigest('B-ada'), textDigest('B-ada-2')] }),
  person('ben', { roles: ['rigger'] }),
  person('ron', { roles: ['rigger', 'inspector'] }),
  person('ines', { roles: ['inspector'] }),
  person('iris', { roles: ['inspector'] }),
  person('ivo', { roles: ['inspector'], holdClasses: ['closing'] }),
  person('otto', { roles: ['inspector'], validTo: '2026-11-24' }),
  person('rhea', { roles: ['inspector'], revoked: true }),
  person('ulla', { roles: ['inspector'], models: ['Pike'] }),
  person('nora', { roles: ['rigger'], models: ['Pike'] }),
  person('eric', { roles: ['rigger'], validTo: '2026-11-25' }),
  person('finn', { roles: ['rigger'], validFrom: '2026-11-26' }),
  person('tess', { roles: ['trainee'], certificate: null }),
];

const component = (kind: ComponentKind, serial: string, differing: Partial<Component> = {}): Component => ({
  kind,
  model: { bag: 'SB', container: 'SC', canopy: 'SK' }[kind],
  serial,
  otherMarks: [],
  madeOn: '2020-05-01',
  inServiceOn: '2020-06-01',
  lifeYearsFromMade: 15,
  lifeYearsFromService: 10,
  lastPackedOn: '2026-09-01',
  lastInspectedOn: null,
  outstanding: [],
  ...differing,
});

type Differing = Partial<Record<ComponentKind, Partial<Component>>>;

const assembly = (id: string, differing: Partial<Assembly> = {}, parts: Differing = {}): Assembly => ({
  id,
  name: `Assembly ${id}`,
  model: 'Sprat',
  typeAndMake: 'Sprat main, made for these tests',
  owner: { name: 'The test loft', address: '1 Test Lane' },
  components: (['bag', 'container', 'canopy'] as const).map((kind) =>
    component(kind, `${id}-${kind.toUpperCase()}`, parts[kind]),
  ),
  procedure: 'sprat',
  repackRule: 'half-year',
  openAt: null,
  ...differing,
});

export const LOFT: Loft = {
  settings: {
    name: 'The test loft',
    place: 'Test bench',
    table: 'Table 1',
    verdictSeconds: 120,
    speakingRate: 1,
    repackRules: [{ id: 'half-year', title: '180 days', interval: { days: 180 }, boundary: 'inclusive' }],
  },
  people: PEOPLE,
  assemblies: [
    assembly('P1', {}, { bag: { otherMarks: ['P1-OLD-BAG-LABEL'] }, container: { uii: 'D00000P1-CONTAINER' } }),
    assembly('P2'),
    assembly('OVERDUE', {}, { canopy: { lastPackedOn: '2026-05-28' } }),
    assembly('LASTDAY', {}, { canopy: { lastPackedOn: '2026-05-29' } }),
    assembly('AGED', {}, { container: { madeOn: '2011-11-25' } }),
    assembly('LASTLIFE', {}, { container: { madeOn: '2011-11-26' } }),
    assembly('REPAIR', {}, { canopy: { outstanding: ['Hole in cell 4'] } }),
    assembly('MIXED', {}, { bag: { model: 'PB' } }),
    assembly('AWAY', { openAt: 'Table 2' }),
    assembly('UNWRITTEN', { procedure: 'nowhere' }),
    assembly('EARLY', { procedure: 'later' }),
    assembly('NARROW', { procedure: 'narrow' }),
    assembly('RULELESS', { repackRule: 'none' }),
    assembly('PIKE', { model: 'Pike', procedure: 'narrow' }),
    {
      ...assembly('TWOBAGS'),
      components: [...assembly('TWOBAGS').components, component('bag', 'TWOBAGS-BAG-2')],
    },
  ],
  procedures: [SPRAT, LATER, NARROW],
};
