/**
 * The demo procedures are inventions: none repeats what riggers know, figure for figure, for the same thing, and no
 * example phrase does either. The figures below are common practice, no source, unless a source is named.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Procedure, Stage } from '../../src/domain/procedure';
import { allHoldsOf } from '../../src/domain/procedure';
import type { Quantity } from '../../src/domain/quantity';
import { inUnit } from '../../src/domain/quantity';
import { demoLoft } from '../e2e/support/demo-loft';

const ROOT = join(import.meta.dirname, '../..');
const loft = demoLoft();
const { procedures } = loft;

type Of<K extends Stage['kind']> = Extract<Stage, { kind: K }>;
type Lengths = (procedure: Procedure) => readonly (Quantity | undefined)[];

const stowsNamed = (procedure: Procedure, named: (text: string) => boolean): readonly Of<'stow'>[] =>
  procedure.stages.filter((stage): stage is Of<'stow'> => stage.kind === 'stow' && named(stage.title));
const isLocking = (text: string): boolean => /lock/i.test(text);

const lineBights: Lengths = (procedure) =>
  stowsNamed(procedure, (text) => !isLocking(text)).map(({ plan }) => plan.bight);
const lockingBights: Lengths = (procedure) => stowsNamed(procedure, isLocking).map(({ plan }) => plan.bight);

/** What a stow plan starts from and what it leaves, whatever the stage is called. */
const linesLeft: Lengths = (procedure) =>
  stowsNamed(procedure, () => true).flatMap(({ plan }) => [
    plan.remainder,
    ...(plan.lineFrom === null ? [] : [plan.line]),
  ]);

/** Nominal lengths of the measuring stages whose words match. */
const measured =
  (words: RegExp): Lengths =>
  ({ stages }) =>
    stages.flatMap((stage) =>
      stage.kind === 'measure' && stage.target.from === 'nominal' && words.test(`${stage.title} ${stage.what}`)
        ? [stage.target.nominal]
        : [],
    );
const folds = measured(/fold|turn/i);
const ends = measured(/tie|end|thread|cord/i);

/** From the least to the greatest that is still the figure of the trade, in inches. */
const LENGTHS: readonly (readonly [string, Lengths, number, number])[] = [
  ['a stow in a small inner bag of about 1 in', lineBights, 0.75, 1.25],
  ['a stow in a larger outer bag, or of a static line, of about 2 in', lineBights, 1.75, 2.25],
  // avstop.com/ac/prh/chapter4_8.html: "3 in stows are recommended".
  ['a stow of 3 in', lineBights, 2.75, 3.25],
  ['a locking stow of 2 to 3 in', lockingBights, 1.75, 3.25],
  ['a first fold of about 8 in', folds, 7, 9],
  ['42 in of line before the locking stows', linesLeft, 41, 43],
  ['about 16 in of line after the locking stows', linesLeft, 15, 17],
  ['tie ends trimmed to 1 in', ends, 0.75, 1.25],
  // avstop chapter5_30: a seal thread of about 20 in.
  ['a seal thread of about 20 in', ends, 19, 21],
];

describe.each(procedures.map((procedure) => [procedure.id, procedure] as const))('%s has no', (_, procedure) => {
  it.each(LENGTHS)('%s', (...[, lengths, least, greatest]) => {
    for (const length of lengths(procedure)) {
      const inches = length === undefined ? NaN : inUnit(length, 'in').value;
      expect(inches >= least && inches <= greatest, `${inches} in`).toBe(false);
    }
  });

  // Eleven is common practice, no source; 6, 7 and 9 stand in TM 10-1670-269-23P_77, -279-23P_46, -281-23P_50.
  it.each([6, 7, 9, 11])('%i holds', (holds) => expect(allHoldsOf(procedure)).not.toHaveLength(holds));

  // avstop chapter6_1: packing paddle or fid, pull-up cord, temporary locking pin.
  it('tool or temporary item with the name of a usual one', () => {
    const names = [...procedure.tools, ...procedure.temporaryItems].map(({ name }) => name);
    for (const name of names)
      expect(name).not.toMatch(/paddle|fid\b|pull.?(up)? cord|holding pin|locking pin|link tie/i);
  });

  it('caution or step that names a bight of one, two or three inches', () => {
    const texts = procedure.stages.flatMap(({ steps, caution }) => [...steps, caution ?? '']);
    for (const text of texts) expect(text).not.toMatch(/\b(one|two|three|two and a half) inch/i);
  });

  it('blade near the lines without a caution', () => {
    const blades = /scissors|shears|knife|blade|\bcut (?!ties)|trim/i;
    expect(procedure.tools.filter(({ name }) => blades.test(name))).toEqual([]);
    for (const { steps, caution } of procedure.stages) if (blades.test(steps.join(' '))) expect(caution).not.toBeNull();
  });
});

// 14 CFR 91.307 and 105.43, TM 10-1670-201-23 Table 2-1, CAR 105.02.2: published intervals.
it.each([{ days: 60 }, { days: 100 }, { days: 120 }, { days: 180 }, { days: 200 }, { days: 365 }, { months: 6 }])(
  'no repack rule of the loft is the published one of %j',
  (interval) => {
    for (const rule of loft.settings.repackRules) expect(rule.interval).not.toEqual(interval);
  },
);

/** Every file of these folders and names that a person may read an example in. */
function textsIn(path: string): readonly string[] {
  const full = join(ROOT, path);
  if (statSync(full).isFile()) return /\.(tsx?|md|gram|ya?ml|html)$/.test(path) ? [path] : [];
  return readdirSync(full).flatMap((name) => textsIn(join(path, name)));
}

describe('no example phrase says a figure of the trade', () => {
  const files = ['README.md', 'index.html', 'grammars', 'src', 'demo-data/README.md', 'demo-data/procedures'].flatMap(
    textsIn,
  );
  const PHRASE = /\b(four two|forty.?two|42( 1\/\d)?) ?in(ches)?\b|@example (measured )?(four two|forty two)\b/i;

  it.each(files)('%s', (file) => {
    expect(PHRASE.exec(readFileSync(join(ROOT, file), 'utf8'))?.[0]).toBeUndefined();
  });
});
