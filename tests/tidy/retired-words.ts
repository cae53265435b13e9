/** Words of ours that gave way to those of the field: what an engineer would look up. */

export interface Retired {
  /** Where it is found in text, names of things in code included. */
  readonly word: RegExp;
  /** What stands in its place. */
  readonly now: string;
}

export const RETIRED: readonly Retired[] = [
  {
    word: /\bsecond ears?\b|\bSecondEar|\bsecond-ear\b|\btemplate ?ears?\b|templateEar/i,
    now: 'speaker scorer, rescoring',
  },
  { word: /(?<!time[ -])\bwarp(s|ed|ing)?\b/i, now: 'dynamic time warping' },
  { word: /shel(f|ves)\b|Shelf/, now: 'voice-sample store' },
  { word: /\bStitches\b|class(Name)?="stitch/, now: 'progress bar' },
  { word: /\bstatus strip\b|\bthe strip\b|\bStrip(View|State|Props)?\b|class(Name)?="strip/, now: 'status bar' },
  { word: /\bfrontiers?\b/i, now: 'compact range' },
  { word: /\bsealers?\b/i, now: 'checkpoint signer' },
  { word: /\bturn-?logs?\b|turnLog/i, now: 'write-ahead-log rotation' },
  { word: /\bwitness(Journal|ed)?\b/, now: 'journal marker' },
  { word: /\b(inclusion|consistency)Runs\b|\bnodesOfRun\b/, now: 'leaf range' },
  { word: /listened-grammars|ListenedGrammars/, now: 'what is listened for' },
  { word: /\b(camera|wedge)[ -]?eyes?\b|(Camera|Wedge)Eye/i, now: 'camera scanner, keyboard-wedge scanner' },
];
