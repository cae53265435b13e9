/** What the bench of made voices says: every command where it is legal, usual numbers in their usual forms, and talk. */
import type { Vocabulary } from '../../../src/voice/hearing';
import { BENCH_TALK, BENCH_VOCABULARIES } from '../recogniser';

export interface Saying {
  /** A name of `BENCH_VOCABULARIES`. */
  readonly place: string;
  readonly vocabulary: Vocabulary;
  readonly text: string;
}

const COMMANDS: Readonly<Record<string, readonly string[]>> = {
  stage: [
    'stage complete',
    'say again',
    'what remains',
    'stand by',
    'correction',
    'call inspector',
    'call the inspector',
  ],
  tools: ['one tool', 'two tools', 'three tools', 'four tools', 'seven tools', 'nine tools', 'eleven tools'],
  stowing: [
    'one more stow',
    'stow',
    'one stow',
    'two stows',
    'five stows',
    'six stows',
    'eight stows',
    'ten stows',
    'twelve stows',
    'sixteen stows',
    'twenty stows',
    'two four stows',
    'twenty five stows',
    'thirty seven stows',
    'one zero five stows',
    'one hundred twenty stows',
  ],
  measuring: [
    'measured ten',
    'measured nineteen',
    'measured three seven inches',
    'thirty seven inches',
    'measured one and a quarter inches',
    'one and a half inches',
    'measured two and three eighths inches',
    'seven and fifteen sixteenths inches',
    'three quarters of an inch',
    'measured half an inch',
    'three feet four inches',
    'measured six feet',
    'thirty decimal five centimetres',
    'measured eight point two five centimetres',
    'three zero five millimetres',
    'measured one hundred and twenty millimetres',
  ],
  readBack: ['affirm', 'negative', 'say again', 'stand by'],
  items: ['item placed', 'item removed', 'stop and tag'],
  hold: ['release hold', 'release the hold', 'send back for rework', 'resume packing', 'resume'],
  inspection: ['nothing found', 'read the list', 'finding two'],
  closing: ['all items seen', 'card in pocket', 'reopen stage four', 'reopen stage seventeen'],
  finding: ['finding one', 'finding three', 'finding twelve', 'finding two five'],
  rehearsal: [
    'next stage',
    'next',
    'speak slower',
    'slower',
    'speak faster',
    'faster',
    'finish reading',
    'finish',
    'go to stage four',
    'go to stage nine',
    'go to stage seventeen',
  ],
};

export const SAYINGS: readonly Saying[] = Object.entries(COMMANDS).flatMap(([place, texts]) =>
  texts.map((text) => ({ place, vocabulary: vocabularyAt(place), text })),
);

const MORE_TALK = [
  'the remains were found in the barn',
  'is the stage finished over there',
  'affirmative action is a policy',
  'he returned the tool yesterday',
  'hello',
  'we need twelve more of the long ones',
  'put it down and come over here',
  'the second line is twisted again',
  'that one measured fine this morning',
  'who left the gate open',
  'go and ask him about the stage lights',
  'hold the release handle for me',
];

/** Each sentence at another place, so that all kinds of words are open while somebody talks. */
export const TALK: readonly Saying[] = [...new Set([...BENCH_TALK, ...MORE_TALK])].map((text, index) => {
  const places = Object.keys(COMMANDS);
  const place = places[index % places.length] ?? 'stage';
  return { place, vocabulary: vocabularyAt(place), text };
});

function vocabularyAt(place: string): Vocabulary {
  const vocabulary = BENCH_VOCABULARIES[place];
  if (vocabulary === undefined) throw new Error(`there is no vocabulary "${place}"`);
  return vocabulary;
}
