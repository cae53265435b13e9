/** Words of ours that gave way to those of the field: what an engineer would look up. */

export interface Retired {
  /** Where it is found in text, names of things in code included. */
  readonly word: RegExp;
  /** What stands in its place. */
  readonly now: string;
  /** One spelling of it, which the pattern must find. */
  readonly was: string;
}

export const RETIRED: readonly Retired[] = [
  {
    word: /\bsecond ears?\b|\bSecondEar|\bsecond-ear\b|\btemplate ?ears?\b|templateEar/i,
    now: 'speaker scorer, rescoring',
    was: 'SecondEar',
  },
  { word: /(?<!time[ -])\bwarp(s|ed|ing)?\b/i, now: 'dynamic time warping', was: 'warped' },
  { word: /shel(f|ves)\b|Shelf/, now: 'voice-sample store', was: 'VoiceShelf' },
  { word: /\bStitches\b|class(Name)?="stitch/, now: 'progress bar', was: 'Stitches' },
  {
    word: /\bstatus strip\b|\bthe strip\b|\bVoiceStrip\b|\bstripOf\b|\bStrip(View|State|Props)?\b|class(Name)?="strip/,
    now: 'status bar',
    was: 'the strip',
  },
  { word: /[fF]rontier/, now: 'compact range', was: 'Frontier' },
  { word: /[sS]ealer(s|Options)?\b/, now: 'checkpoint signer', was: 'createSealer(' },
  { word: /\bturn-?logs?\b|turnLog/i, now: 'write-ahead-log rotation', was: 'turnLog' },
  { word: /\bwitness(Journal|ed)?\b/, now: 'journal marker', was: 'witnessed' },
  { word: /\b(inclusion|consistency)Runs\b|\bnodesOfRun\b/, now: 'leaf range', was: 'nodesOfRun' },
  { word: /listened-grammars|ListenedGrammars/, now: 'what is listened for', was: 'ListenedGrammars' },
  {
    word: /\b(camera|wedge)[ -]?eyes?\b|(Camera|Wedge)Eye/i,
    now: 'camera scanner, keyboard-wedge scanner',
    was: 'createWedgeEye',
  },
  { word: /\bHighTones\b/, now: 'pre-emphasis', was: 'HighTones' },
  { word: /\bsample(Random|All)\b/, now: 'generated sentence', was: 'sampleRandom' },
  { word: /\bleft-?over\b|\bleftOver\b/, now: 'parts of a prompt', was: 'leftOver' },
  { word: /\bNodeEar\b|\bopenNodeEar\b/, now: 'node listener, kiosk ear', was: 'openNodeEar' },
  { word: /\b[lL]oopCosts\b|\bloopCost(In)?\b/, now: 'filler model', was: 'loopCosts' },
  { word: /\b(first|second|laxest) search(es)?\b/, now: 'first and second pass', was: 'the second search' },
  { word: /\b(proof|proving|finding)For\b/, now: 'margins, first and second pass', was: 'provingFor' },
];
