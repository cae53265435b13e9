/** What both readers see, frame by frame, and what is accepted when. */
import type { SeenCode } from '../../../src/scan/camera/agreement';
import type { Pass } from '../../../src/scan/camera/frame';

/** A code as a reader sees it. */
export const code = (payload: string, symbology: SeenCode['symbology'] = 'code128', offCentre = 0): SeenCode => ({
  payload,
  symbology,
  offCentre,
});

/**
 * Frames 50 ms apart: [first reader, deciding reader, its view], or a jump of the clock in milliseconds. Where no view
 * is named each frame is looked at through another one than the frame before.
 */
export type Line = readonly [string | null, readonly SeenCode[], Pass?] | number;

const A = code('QC-204-118');
const B = code('QB-031-077');
const AQ = code('QC-204-118', 'qr');
const A39 = code('QC-204-118', 'code39');

export const STORIES: readonly (readonly [string, readonly Line[], readonly string[]])[] = [
  ['one frame proves nothing', [[null, [A]]], []],
  [
    'two different frames agree',
    [
      [null, [A]],
      [null, [A]],
    ],
    ['QC-204-118@50'],
  ],
  [
    'frames between in which nothing is read do no harm',
    [
      [null, [A]],
      [null, []],
      [null, [A]],
    ],
    ['QC-204-118@100'],
  ],
  [
    'a linear code read in the same view again and again is not believed',
    [
      [null, [A], 'turn+20'],
      [null, [A], 'turn+20'],
      ['QC-204-118', [A], 'turn+20'],
    ],
    [],
  ],
  [
    'a linear code read again through a view beside it',
    [
      [null, [A], 'turn+20'],
      [null, [A], 'turn+20'],
      [null, [A], 'turn+20*1.25'],
    ],
    ['QC-204-118@100'],
  ],
  [
    'two views more than a second apart do not agree',
    [[null, [A], 'plain'], 1100, [null, [A], 'plain+1.5'], [null, [A], 'plain+1.5']],
    [],
  ],
  [
    'an objection of the first reader starts the views over',
    [
      [null, [A], 'plain'],
      ['QB-031-077', [A], 'plain+1.5'],
      [null, [A], 'plain'],
      [null, [A], 'plain'],
    ],
    [],
  ],
  [
    'a matrix code corrects errors: one view is enough',
    [
      [null, [AQ], 'plain'],
      [null, [AQ], 'plain'],
    ],
    ['QC-204-118@50'],
  ],
  [
    'Code 39 in three frames of one view is not believed either',
    [
      [null, [A39], 'plain'],
      [null, [A39], 'plain'],
      [null, [A39], 'plain'],
    ],
    [],
  ],
  [
    'one label read wrongly in one view and rightly in others: nothing is accepted while both are in view',
    [
      [null, [A], 'plain'],
      [null, [B], 'plain+1.5'],
      [null, [A], 'plain'],
      [null, [B], 'plain-1.5'],
    ],
    [],
  ],
  [
    'two different readings never agree',
    [
      [null, [A]],
      [null, [B]],
    ],
    [],
  ],
  [
    'Code 39 takes three frames',
    [
      [null, [A39]],
      [null, [A39]],
      [null, [A39]],
    ],
    ['QC-204-118@100'],
  ],
  [
    'Code 39 read twice and lost',
    [
      [null, [A39]],
      [null, [A39]],
      [null, []],
    ],
    [],
  ],
  [
    'the first reader alone is never accepted',
    [
      ['X', []],
      ['X', []],
      ['X', []],
      ['X', []],
    ],
    [],
  ],
  [
    'the first reader cannot complete what the deciding reader saw once',
    [
      [null, [A]],
      ['QC-204-118', []],
    ],
    [],
  ],
  [
    'both agree from the start',
    [
      ['QC-204-118', [A]],
      ['QC-204-118', [A]],
    ],
    ['QC-204-118@50'],
  ],
  [
    'the readers disagree on one frame: start over',
    [
      [null, [A]],
      ['QC-204-119', [A]],
      [null, [A]],
      [null, [A]],
    ],
    ['QC-204-118@150'],
  ],
  ['the readers disagree on every frame', Array.from({ length: 9 }, (): Line => ['QC-204-119', [A]]), []],
  ['frames too far apart are no agreement', [[null, [A]], 1100, [null, [A]]], []],
  [
    'a label that stays in view is delivered once',
    Array.from({ length: 60 }, (): Line => [null, [A]]),
    ['QC-204-118@50'],
  ],
  [
    'a label that is lost for a second is not delivered again',
    [[null, [A]], [null, [A]], 1100, [null, [A]], [null, [A]]],
    ['QC-204-118@50'],
  ],
  [
    'a label that only the first reader still sees is still in view',
    [[null, [A]], [null, [A]], 700, ['QC-204-118', []], 900, [null, [A]], [null, [A]], [null, [A]]],
    ['QC-204-118@50'],
  ],
  [
    'a label that was away for 1.2 s is delivered again',
    [[null, [A]], [null, [A]], [null, []], [null, []], 1200, [null, [A]], [null, [A]]],
    ['QC-204-118@50', 'QC-204-118@1450'],
  ],
  [
    'a label held while no frame is looked at for 4 s is delivered once',
    [[null, [A]], [null, [A]], 4000, [null, [A]], [null, []], 4000, [null, [A]], [null, [A]]],
    ['QC-204-118@50'],
  ],
  [
    'a label is delivered again when the scanner was closed for longer than any stall',
    [[null, [A]], [null, [A]], 5000, [null, [A]], [null, [A]]],
    ['QC-204-118@50', 'QC-204-118@5150'],
  ],
  [
    'another label takes its place',
    [[null, [A]], [null, [A]], 500, [null, [B]], [null, [B]]],
    ['QC-204-118@50', 'QB-031-077@650'],
  ],
  [
    'the same payload in two symbols is one label',
    [
      [null, [A]],
      [null, [code('QC-204-118', 'dataMatrix')]],
      [null, [A]],
      [null, [A]],
    ],
    ['QC-204-118@50'],
  ],
  [
    'two labels side by side: neither is taken',
    Array.from({ length: 9 }, (): Line => [null, [code('A-1-1', 'qr', 0.28), code('A-1-2', 'qr', 0.3)]]),
    [],
  ],
  [
    'two labels seen in turn: neither is taken',
    Array.from({ length: 12 }, (_, at): Line => [
      null,
      [at % 2 === 0 ? code('A-1-1', 'qr', 0.28) : code('A-1-2', 'qr', 0.3)],
    ]),
    [],
  ],
  [
    'two labels, one of them aimed at',
    Array.from({ length: 9 }, (): Line => [null, [code('A-1-2', 'qr', 0.3), code('A-1-1', 'qr', 0.03)]]),
    ['A-1-1@50'],
  ],
  [
    'two labels, the nearer one still far from the middle',
    Array.from({ length: 9 }, (): Line => [null, [code('A-1-2', 'qr', 0.7), code('A-1-1', 'qr', 0.25)]]),
    [],
  ],
  [
    'a command card at the rim: its neighbours may only be unread',
    Array.from({ length: 9 }, (): Line => [null, [code('SC:affirm', 'qr', 0.2)]]),
    [],
  ],
  [
    'a command card aimed at, its neighbours around it',
    Array.from({ length: 9 }, (): Line => [null, [code('SC:negative', 'qr', 0.3), code('SC:affirm', 'qr', 0.05)]]),
    ['SC:affirm@50'],
  ],
  [
    'GS1 data that the readers tell differently is no disagreement',
    [
      ['\u001d0109501101530003', [code(']d20109501101530003', 'dataMatrix')]],
      [']C10109501101530003\u001d', [code(']d20109501101530003', 'dataMatrix')]],
    ],
    [']d20109501101530003@50'],
  ],
];
