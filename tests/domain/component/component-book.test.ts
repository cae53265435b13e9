/** What the journal adds to the files: tags that stick until they are taken off, and the last packing that was signed. */
import { describe, expect, it } from 'vitest';
import { BookFold, withBook } from '../../../src/domain/component/component-book';
import type { FactBody } from '../../../src/domain/fact';
import { SAMPLE_RECORD } from '../../fakes/ledger-facts';
import { LOFT } from '../../packing/fixture';

const AT = '2026-11-25T10:00:00.000Z';

function bookOf(...packs: readonly (readonly FactBody[])[]) {
  const fold = new BookFold();
  let seq = 0;
  packs.forEach((bodies, index) => {
    for (const body of bodies) {
      const pack = body.kind === 'tagCleared' ? 'loft' : `p${String(index)}`;
      fold.take({ seq, pack, at: AT, by: 'ada', body });
      seq += 1;
    }
  });
  return fold.book();
}

const OPENED: FactBody = { kind: 'packOpened', packer: 'ada', table: 'Table 1' };
const part = (component: 'bag' | 'canopy' | 'container'): FactBody => ({
  kind: 'componentIdentified',
  component,
  serial: `P1-${component.toUpperCase()}`,
  reader: 'camera',
});
const PARTS = [part('bag'), part('canopy'), part('container')];
const signed = (packedOn: string): FactBody => ({
  kind: 'signed',
  packer: 'ada',
  sighting: 's',
  record: { ...SAMPLE_RECORD, packedOn },
});
const clear = (tag: number, serial: string): FactBody => ({
  kind: 'tagCleared',
  tag,
  component: 'canopy',
  serial,
  inspector: 'ines',
  sighting: 's-9',
  finding: 'Repaired',
  channel: 'voice',
});
const stopped: FactBody = { kind: 'stopped', reason: 'Torn', cause: 'damage', component: 'canopy' };
const tagged = (book: ReturnType<typeof bookOf>) => book.tags.map(({ serial }) => serial);

describe('a tag', () => {
  it('hangs on the component that the stop names', () => {
    const book = bookOf([OPENED, ...PARTS, stopped]);
    expect(book.tags).toMatchObject([{ serial: 'P1-CANOPY', cause: 'damage', seq: 4, packers: ['ada'] }]);
  });

  it('hangs on every identified component where the stop names none, and where its part was not identified', () => {
    expect(tagged(bookOf([OPENED, ...PARTS, { kind: 'stopped', reason: 'Gone' }]))).toHaveLength(3);
    expect(tagged(bookOf([OPENED, part('bag'), stopped]))).toEqual(['P1-BAG']);
  });

  it('hangs on what the inspection before packing found too, whatever the stop names', () => {
    const found: FactBody = {
      kind: 'inspected',
      component: 'bag',
      serial: 'P1-BAG',
      result: 'finding',
      finding: 'Damage',
      channel: 'voice',
    };
    expect(tagged(bookOf([OPENED, ...PARTS, found, stopped]))).toEqual(['P1-BAG', 'P1-CANOPY']);
  });

  it('does not hang on a component whose scan was taken back', () => {
    expect(tagged(bookOf([OPENED, part('bag'), { kind: 'corrected', fact: 1 }, part('canopy'), stopped]))).toEqual([
      'P1-CANOPY',
    ]);
  });

  it('stays over other packs until that very tag is taken off', () => {
    const tag = [OPENED, ...PARTS, stopped];
    expect(tagged(bookOf(tag, [OPENED, part('bag')]))).toEqual(['P1-CANOPY']);
    expect(tagged(bookOf(tag, [clear(3, 'P1-CANOPY')]))).toEqual(['P1-CANOPY']);
    expect(tagged(bookOf(tag, [clear(4, 'P1-BAG')]))).toEqual(['P1-CANOPY']);
    expect(tagged(bookOf(tag, [clear(4, 'P1-CANOPY')]))).toEqual([]);
    // What is hung after it was taken off is a tag of its own.
    expect(tagged(bookOf(tag, [clear(4, 'P1-CANOPY')], tag))).toEqual(['P1-CANOPY']);
  });
});

describe('the journal over the file', () => {
  const partOf = (loft: typeof LOFT, serial: string) =>
    loft.assemblies.flatMap(({ components }) => components).find((one) => one.serial === serial);

  it.each([
    ['a signed packing here is the last one', '2026-11-20', '2026-11-20'],
    ['a later one in the file counts', '2026-08-01', '2026-09-01'],
  ])('%s', (_name, packedOn, last) => {
    const fed = withBook(LOFT, bookOf([OPENED, ...PARTS, signed(packedOn)]));
    expect(partOf(fed, 'P1-CANOPY')?.lastPackedOn).toBe(last);
    expect(partOf(fed, 'P2-CANOPY')?.lastPackedOn).toBe('2026-09-01');
  });

  it('puts the open tag on the part, and on no other', () => {
    const fed = withBook(LOFT, bookOf([OPENED, ...PARTS, stopped]));
    expect(partOf(fed, 'P1-CANOPY')?.tags).toEqual(['tagged on 25 November 2026 for damage']);
    expect(partOf(fed, 'P1-BAG')?.tags).toBeUndefined();
  });

  it('a pack that was opened and not signed changes nothing', () => {
    expect(withBook(LOFT, bookOf([OPENED, ...PARTS]))).toEqual(LOFT);
  });
});
