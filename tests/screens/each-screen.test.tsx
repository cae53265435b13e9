/** What one screen in particular owes a person. */
import { describe, expect, it } from 'vitest';
import type { LogRecord } from '../../src/domain/log-record';
import type { AppView } from '../../src/screens/contract/app-view';
import type { RecordCopy, ReprintView } from '../../src/screens/contract/records-view';
import type { PackView, StowLedgerView } from '../../src/packing/machine/view';
import { secondsLeft } from '../../src/screens/hold/HoldScreen';
import { LiveLevel } from '../../src/screens/parts/live-level';
import { LevelBar } from '../../src/screens/parts/StatusBar';
import { Figure } from '../../src/screens/parts/Figure';
import { Words } from '../../src/screens/parts/Words';
import { renderToStaticMarkup } from 'react-dom/server';
import { draw, readable, statusBarOf } from './drawn';
import { fixturesAt } from './fixtures';
import { DEMO_RECORD } from './fixtures/record';

const FIXTURES = fixturesAt(Date.parse('2026-11-25T13:00:00Z'));

function fixture(name: string): AppView {
  const view = FIXTURES[name];
  if (view === undefined) throw new Error(`no fixture ${name}`);
  return view;
}

function changed(name: string, change: (view: PackView) => PackView): AppView {
  const view = fixture(name);
  if (view.screen !== 'pack') throw new Error(`${name} is no pack`);
  return { screen: 'pack', view: change(view.view) };
}

const read = (name: string): string => readable(draw(fixture(name)));

describe('start', () => {
  it('carries the safety note in full', () => {
    const text = read('start');
    expect(text).toContain('invented and must not be used to pack a parachute');
    expect(text).toContain('writes its own from the manufacturer’s current instructions');
    expect(text).toContain('judgement of licensed riggers and inspectors come first');
    expect(text).toContain('The kiosk assists; it does not certify.');
  });

  it('claims nothing of demonstration where the loft packs by its own procedures', () => {
    const text = read('start-own-procedures');
    expect(text).not.toMatch(/demonstration|invented|must not be used/i);
    expect(text).toContain('Local rules and the judgement of licensed riggers and inspectors come first.');
    expect(text).toContain('The kiosk assists; it does not certify.');
  });

  it('marks each procedure that is only for demonstration', () => {
    expect(read('start')).toContain('22 stages, 8 holds, demonstration only');
  });

  it('says of every part whether it works, and of a failed one what still does', () => {
    const text = read('start-troubled');
    expect(text).toContain('Microphone failed');
    expect(text).toContain('Touch, keys and the command card still work.');
    expect(text).toContain('Storage works');
    expect(read('start-checking')).toContain('Storage being checked');
  });

  it('shows the live level beside a microphone that works', () => {
    expect(draw(fixture('start')).match(/class="level"/g)).toHaveLength(2);
    expect(draw(fixture('start-troubled')).match(/class="level"/g)).toHaveLength(1);
  });

  it('names a refused file, its line and the reason', () => {
    const text = read('start-troubled');
    expect(text).toContain('procedures/heron-main.yaml, line 148');
    expect(text).toContain('is placed in stage 4 and never removed');
    expect(text).toContain('people.yaml The file is not YAML');
  });

  it('says so when there is no procedure to hear', () => {
    expect(read('start-empty')).toContain('No procedure could be loaded.');
  });
});

describe('camera picture', () => {
  it.each([
    ['troubled', 'The camera does not work. Use the hand scanner.'],
    ['loading', 'The camera is off. Use the hand scanner.'],
  ])('says what to use in its place: %s', (statusBar, words) => {
    const text = readable(draw(fixture('identify'), statusBarOf(statusBar)));
    expect(text).toContain(words);
    expect(text).not.toContain('inside the frame');
  });
});

describe('stow ledger', () => {
  const shapes = (name: string): readonly string[] =>
    [...draw(fixture(name)).matchAll(/class="stow stow-(\w+)"/g)].map((match) => match[1] ?? '');

  it('draws every stow once, done, next and still to do', () => {
    const drawn = shapes('stage-stow');
    expect(drawn).toEqual([...Array<string>(5).fill('done'), 'next', ...Array<string>(6).fill('todo')]);
    expect(shapes('stage-stow-many')).toEqual(Array<string>(28).fill('done'));
  });

  it('puts left stows left of the tray and right ones right', () => {
    const markup = draw(fixture('stage-stow'));
    const roots = [...markup.matchAll(/class="stow stow-\w+" d="M(\d+) /g)].map((match) => Number(match[1]));
    expect(roots).toHaveLength(12);
    const [left, right] = [roots[0] ?? 0, roots[1] ?? 0];
    expect(left).toBeLessThan(right);
    expect(roots).toEqual(Array.from({ length: 12 }, (_, index) => (index % 2 === 0 ? left : right)));
  });

  it('draws no side that it was not told', () => {
    expect(draw(fixture('stage-stow-unsided')).match(/<rect class="stow /g)).toHaveLength(11);
  });

  it('says in words what it draws', () => {
    expect(draw(fixture('stage-stow'))).toContain('aria-label="5 of 12 stows are in, the next goes right"');
    expect(draw(fixture('stage-stow-many'))).toContain('aria-label="28 of 28 stows are in, all stows are in"');
  });

  it('shows the line used, left now and left at the end', () => {
    expect(read('stage-stow')).toContain('Line used 50 in Left now 107 in Left at the end 37 in');
  });
});

describe('a procedure that is only for demonstration', () => {
  const LINE = 'This procedure must not be used to pack a parachute.';
  const OF_A_PACK = ['stage-confirm', 'stage-stow', 'hold-waiting', 'hold-inspecting', 'close-up', 'sign', 'rehearsal'];

  it.each(OF_A_PACK)('is called so on %s', (name) => expect(read(name)).toContain(LINE));

  it('is called so while a value is read back', () => expect(read('stage-measure-read-back')).toContain(LINE));

  it('and a procedure of the loft’s own is not', () => {
    const own = changed('stage-confirm', (view) => ({ ...view, demonstration: null }));
    expect(readable(draw(own))).not.toContain('must not be used');
  });
});

describe('stow ledger of a plan that ends with what is left', () => {
  /** Five of 3 to 7 stows are in; each pair lies on the next loop from the centre outward. */
  const UNTIL: Partial<StowLedgerView> = {
    done: 5,
    planned: 7,
    least: 3,
    wanted: { lowest: { value: 18, unit: 'in' }, highest: { value: 38, unit: 'in' } },
    nextSide: 'right',
    nextLoop: 3,
    sides: ['left', 'right', 'left', 'right', 'left', 'right', 'left'],
    loops: [1, 1, 2, 2, 3, 3, 4],
    viewpoint: 'as seen from the mouth of the bag',
    leadIn: { value: 6, unit: 'in' },
    remainder: { value: 28, unit: 'in' },
  };
  const ledger = (differing: Partial<StowLedgerView>): AppView =>
    changed('stage-stow', (view) => {
      if (view.detail.screen !== 'stage' || view.detail.stow === null) throw new Error('the fixture stows');
      return { ...view, detail: { ...view.detail, stow: { ...view.detail.stow, ...differing } } };
    });
  const markup = draw(ledger(UNTIL));
  const text = readable(markup);
  const plain = read('stage-stow');

  it('says between which numbers it may end', () => {
    expect(text).toContain('5 of 3 to 7 stows');
    expect(plain).toContain('5 of 12 stows');
  });

  it('shows the wanted band, and not the one length that is in its middle', () => {
    expect(text).toMatch(/Left at the end 18 in to 38 in/);
    expect(text).not.toContain('28 in');
  });

  it('says on which loop from the centre the next stow lies', () => {
    expect(text).toContain('Next: right, loop 3 from the centre');
    expect(plain).not.toContain('from the centre');
  });

  it('draws the stows of one loop beside each other, the centre at the bottom and each further loop above', () => {
    const roots = [...markup.matchAll(/class="stow stow-\w+" d="M(\d+) ([\d.]+)H/g)].map(([, x, y]) => [
      Number(x),
      Number(y),
    ]);
    expect(roots).toHaveLength(7);
    const heights = roots.map(([, y]) => y ?? 0);
    expect(heights[0]).toBe(heights[1]);
    expect(heights[2]).toBe(heights[3]);
    expect(heights[4]).toBe(heights[5]);
    const [first = 0, , second = 0, , third = 0, , fourth = 0] = heights;
    expect([first, second, third, fourth]).toEqual([first, second, third, fourth].sort((a, b) => b - a));
    expect(new Set([first, second, third, fourth]).size).toBe(4);
    expect(roots[0]?.[0]).toBeLessThan(roots[1]?.[0] ?? 0);
  });

  it('says whose left and right are meant', () => {
    expect(text).toContain('Left and right as seen from the mouth of the bag');
    expect(plain).not.toContain('Left and right');
  });

  it('names the lead-in beside the other lengths, and none where there is none', () => {
    expect(text).toContain(', lead-in 6 in');
    expect(plain).not.toContain('lead-in');
  });

  it('says nothing of a next loop when all are in', () => {
    const full = readable(draw(ledger({ ...UNTIL, done: 7, nextSide: null, nextLoop: null })));
    expect(full).toContain('All stows are in');
    expect(full).not.toContain('from the centre');
  });
});

describe('measurement', () => {
  it('shows nothing of what is expected before a reading, and all of it afterwards', () => {
    expect(draw(fixture('stage-measure'))).not.toMatch(/37|36|38|tape/);
    expect(read('stage-measure')).toContain('what is expected is shown afterwards');
    expect(draw(fixture('stage-measure-outside'))).toContain('<span class="unseen">36 1/4 in</span>');
    expect(read('stage-measure-outside')).toMatch(/37 in from .* to 38 in/);
  });

  it('says of a value outside by how much and which way', () => {
    const markup = draw(fixture('stage-measure-outside'));
    expect(markup).toContain('tape-outside');
    expect(readable(markup)).toMatch(/is out: .* too long/);
    const short = changed('stage-measure-outside', (view) =>
      view.detail.screen === 'stage' && view.detail.measure !== null
        ? {
            ...view,
            detail: {
              ...view.detail,
              measure: {
                ...view.detail.measure,
                outside: { value: { value: 35, unit: 'in' }, deviation: -2, unit: 'in' },
              },
            },
          }
        : view,
    );
    expect(readable(draw(short))).toContain('35 in is out: 2 in too short');
  });
});

describe('temporary items', () => {
  it('are named while they are in', () => {
    expect(read('stage-stow')).toContain('In now: link tie, bag pin');
  });
  it.each([
    ['stage-place', 'Goes in bag pin'],
    ['stage-remove', 'Comes out pull cord'],
    ['stage-restore', 'Goes in bag pin'],
  ])('%s says which way', (name, words) => {
    expect(read(name)).toContain(words);
  });
});

describe('hold', () => {
  it('says what is to be inspected and which inspector it needs', () => {
    expect(read('hold-waiting')).toContain('Inspector for in-process holds: look first, then scan your badge');
    expect(read('hold-waiting')).toContain('Holding pin in, no line under the flap.');
  });

  it('says who inspects and how long a verdict may still take', () => {
    expect(draw(fixture('hold-waiting'))).not.toContain('countdown');
    const text = readable(draw(fixturesAt(Date.now())['hold-inspecting'] ?? fixture('loading')));
    expect(text).toContain('Inspector: Tomas Lindqvist');
    expect(text).toMatch(/4[01] seconds left/);
  });

  it('counts whole seconds and never below zero', () => {
    const deadline = '2026-11-25T14:00:10+01:00';
    expect(secondsLeft(deadline, Date.parse('2026-11-25T13:00:00Z'))).toBe(10);
    expect(secondsLeft(deadline, Date.parse('2026-11-25T13:00:09.001Z'))).toBe(1);
    expect(secondsLeft(deadline, Date.parse('2026-11-25T13:05:00Z'))).toBe(0);
  });
});

describe('blocked', () => {
  it('names first what stands against packing', () => {
    const text = read('blocked');
    expect(text.indexOf('Repack was due')).toBeLessThan(text.indexOf('2 checks good'));
    expect(text).toContain('Canopy not good');
    expect(text).toContain('Outstanding work: replace the left riser cover.');
  });

  it('offers nothing that goes on', () => {
    expect(draw(fixture('blocked'))).not.toMatch(/data-command="(stageComplete|affirm|resume|next)"/);
  });
});

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

describe('around a pack', () => {
  it('says who is in charge when there are two tabs', () => {
    expect(read('second-tab')).toContain('This table is already in charge in another tab.');
  });
  it('says in a rehearsal that nothing is recorded', () => {
    expect(read('rehearsal')).toContain('Rehearsal: nothing is recorded');
  });
  it('shows since when it stands by, by the clock at the table', () => {
    expect(read('standing-by')).toContain('Since 14:03');
  });
  it('shows every licence with its text', () => {
    expect(read('licences')).toContain('acoustic model en-us 5.2 BSD-2-Clause');
    expect(read('licences')).toContain('Permission is hereby granted');
  });
});

describe('small pieces', () => {
  it('keeps the level inside its bar whatever comes in', () => {
    const width = (level: number): string =>
      /level-now" width="(\d+)"/.exec(
        renderToStaticMarkup(
          <LiveLevel value={level}>
            <LevelBar />
          </LiveLevel>,
        ),
      )?.[1] ?? '';
    expect([-1, 0, 0.42, 1, 7].map(width)).toEqual(['0', '0', '42', '100', '100']);
  });

  it.each([
    [{ value: 1.25, unit: 'in' }, '1 1/4 in'],
    [{ value: 0.0625, unit: 'in' }, '1/16 in'],
  ] as const)('draws a fraction upright and says it as text', (quantity, words) => {
    const markup = renderToStaticMarkup(<Figure quantity={quantity} />);
    expect(markup).toContain(`<span class="unseen">${words}</span>`);
    expect(markup).toContain('<span class="fraction-over">1</span>');
  });

  it.each([
    [{ value: 42, unit: 'in' }, '42 in'],
    [{ value: 30.5, unit: 'cm' }, '30.5 cm'],
    [{ value: -2, unit: 'mm' }, '-2 mm'],
  ] as const)('draws other lengths plainly', (quantity, words) => {
    expect(readable(renderToStaticMarkup(<Figure quantity={quantity} />))).toBe(words);
  });

  it('keeps serials and lengths in one piece and changes no word', () => {
    const sentence = 'Container, serial QH-K-0093. It is 45 1/2 in, not 30.5 cm, since 2026-11-25.';
    const markup = renderToStaticMarkup(<Words text={sentence} />);
    expect(readable(markup)).toBe(sentence);
    expect([...markup.matchAll(/class="whole">([^<]*)</g)].map((match) => match[1])).toEqual([
      'QH-K-0093',
      '45 1/2 in',
      '30.5 cm',
      '2026-11-25',
    ]);
  });
});
