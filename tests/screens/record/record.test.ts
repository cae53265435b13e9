/** The record and its papers, as they are signed and as they are printed again. */
import { describe, expect, it } from 'vitest';
import type { LogRecord } from '../../../src/domain/log-record';
import type { RecordCopy, ReprintView } from '../../../src/screens/contract/records-view';
import { DEMO_RECORD } from '../fixtures/record';
import { draw, readable } from '../drawn';
import { changed, fixture, read } from '../named';

describe('record', () => {
  const text = read('record');
  // 14 CFR 65.131(a) and (c) name what a packing record must state.
  it.each([
    ['type and make', DEMO_RECORD.typeAndMake],
    ['serial of the canopy', 'QH-C-0417'],
    ['owner', 'Quillhaven Rescue Loft, 1 Slipway, Quillhaven'],
    ['kind and extent of work', DEMO_RECORD.work],
    ['date', DEMO_RECORD.packedOn],
    ['place', DEMO_RECORD.place],
    ['drop tests', 'Drop tests none made'],
    ['defects', DEMO_RECORD.defects[0] ?? ''],
    ['who signed, with certificate', 'Signed by Bram Okafor, certificate QR-1088'],
    ['who packed before', 'Packed by Ines Varga, certificate QR-1042'],
    ['an inspector with certificate and time', 'Tomas Lindqvist QI-0207 2026-11-25 14:10 +01:00'],
    ['last day of use and its rule', '2027-05-24 (civil, 180 days, inclusive)'],
    ['a value', 'line that remains 37 1/4 in'],
    ['tools', 'Line weight 4 4'],
    ['temporary items', 'tension strap 2 2'],
    ['safety notice', DEMO_RECORD.notice],
  ])('states %s', (_, words) => {
    expect(text).toContain(words);
  });

  const withRecord = (more: Partial<LogRecord>): string =>
    readable(
      draw(
        changed('record', (view) => ({
          ...view,
          detail: { screen: 'record', record: { ...DEMO_RECORD, ...more }, final: null },
        })),
      ),
    );

  it.each<[string, Partial<LogRecord>, string]>([
    ['none found, where somebody was asked', { materialDefects: [] }, 'Defects found at inspection none found'],
    ['that nobody was asked', { materialDefects: null }, 'Defects found at inspection nobody was asked'],
    ['what was found', { materialDefects: ['A line is frayed'] }, 'Defects found at inspection A line is frayed'],
    ['nothing of asking on a record of before', { defects: [] }, 'Defects found at inspection none on record'],
  ])('says of defects of the material %s', (_, more, words) => {
    expect(withRecord(more)).toContain(words);
  });

  it('tells what was put right in process apart from defects of the material', () => {
    const text = withRecord({ materialDefects: [], defects: ['A stow was loose'] });
    expect(text).toContain('Put right in process A stow was loose');
    expect(text).toContain('Defects found at inspection none found');
  });

  it.each<[string, Partial<LogRecord>, string]>([
    ['assembled and packed', { workKind: 'assembleAndPack' }, 'assembled and packed (A & P)'],
    ['inspected and repacked', { workKind: 'inspectAndRepack' }, 'inspected and repacked (I & R)'],
    ['the seal mark', { sealMark: 'QH7' }, 'Seal mark QH7'],
    ['uses', { uses: [{ serial: 'QH-C-0417', uses: 41 }] }, 'Heron 260 QH-C-0417 41 uses'],
    [
      'who completed which stages',
      { stagesBy: [{ name: 'Ines Varga', certificate: 'QR-1042', stages: '1 to 9' }] },
      'Ines Varga QR-1042 1 to 9',
    ],
  ])('states %s', (_, more, words) => {
    expect(withRecord(more)).toContain(words);
  });

  it('has two papers, and the data card has room for later entries', () => {
    const drawn = draw(changed('record', (view) => view));
    expect(readable(drawn)).toContain('Data card');
    expect(readable(drawn)).toContain('Log book page');
    expect(drawn.match(/<tr><td><\/td>/g)).toHaveLength(6);
  });

  it('can be printed and left', () => {
    expect(text).toContain('Print the log book page');
    expect(text).toContain('Print the data card');
    expect(text).toContain('Back to the start');
    expect(read('stage-confirm')).not.toContain('Back to the start');
  });
});

describe('a record that is printed again', () => {
  const records = (reprint: ReprintView): string => {
    const view = fixture('records');
    if (view.screen !== 'records') throw new Error('the fixture shows the records');
    return readable(draw({ ...view, records: { ...view.records, empty: false, reprint } }));
  };
  const copy: RecordCopy = {
    record: DEMO_RECORD,
    final: null,
    madeAt: '2026-12-01T10:00:00+00:00',
    proof: { state: 'failed', why: 'none here' },
  };

  it('is marked as a copy on both papers, with the time at which it was made', () => {
    const text = records({ serial: 'QH-C-0417', found: [], copy, trouble: null });
    expect(text.match(/COPY printed again at 2026-12-01 10:00/g)).toHaveLength(2);
    expect(text).toContain('Print the data card');
  });

  it('is not marked when it is printed for the first time', () => {
    expect(read('record')).not.toContain('COPY');
  });

  it('is found by its serial, or said not to be there', () => {
    const found = [{ pack: 'p', packedOn: '2026-11-25', assembly: 'Heron 7', isClosed: false }];
    expect(records({ serial: 'S', found, copy: null, trouble: null })).toContain(
      '2026-11-25, Heron 7, final inspection to come',
    );
    expect(records({ serial: 'S', found: [], copy: null, trouble: null })).toContain('names serial S.');
  });
});
