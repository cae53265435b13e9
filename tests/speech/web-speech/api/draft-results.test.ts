/**
 * Each sentence of the Web Speech API draft (W3C Community Group, WebAudio/web-speech-api, read at 0a1b233) about
 * results and phrases that says "must" or "throw", in our words, with the heading under which it stands.
 */
import { describe, expect, it } from 'vitest';
import { SpeechRecognition } from '../../../../src/speech/web-speech/api/recognition';
import { SpeechRecognitionPhrase, SpeechRecognitionPhraseList } from '../../../../src/speech/web-speech/api/grammars';
import type { Row } from './draft-rig';
import { AGAIN, MATCH, named, NONE, started, UNSURE } from './draft-rig';
import { FakeService, phrasesOf, utterance } from './fake-service';

const RESULTS: readonly Row[] = [
  [
    'transcript',
    'has blanks where they are needed, so that all of a session read as one',
    async () => {
      const made = await started({ continuous: true });
      made.service.tell(...utterance(MATCH), ...utterance(AGAIN), ...utterance(MATCH));
      const list = made.results().at(-1)?.results;
      const text = [...(list ?? [])].map((result) => result.item(0)?.transcript).join('');
      expect(text).toBe('stand by say again stand by');
    },
  ],
  [
    'SpeechRecognitionResult',
    'has as many alternatives as it says, null beyond them, and the surest first',
    async () => {
      const made = await started({ maxAlternatives: 5 });
      made.service.tell(...utterance(UNSURE));
      const result = made.results()[0]?.results?.item(0);
      const alternatives = [...(result ?? [])];
      expect([result?.length, alternatives.length, result?.item(2)]).toEqual([2, 2, null]);
      const confidences = alternatives.map(({ confidence }) => confidence);
      expect(confidences).toEqual([...confidences].sort((a, b) => b - a));
      expect(confidences.every((one) => one >= 0 && one <= 1)).toBe(true);
    },
  ],
  [
    'isFinal',
    'is true exactly where the result will not change',
    async () => {
      const made = await started({ interimResults: true, continuous: true });
      made.service.tell(...utterance(MATCH));
      expect(made.results().map((event) => event.results?.item(event.resultIndex)?.isFinal)).toEqual([false, true]);
    },
  ],
  [
    'SpeechRecognitionResultList',
    'has as many results as it says, and null beyond them',
    async () => {
      const made = await started({ continuous: true });
      made.service.tell(...utterance(MATCH), ...utterance(AGAIN));
      const list = made.results().at(-1)?.results;
      expect([list?.length, [...(list ?? [])].length, list?.item(2)]).toEqual([2, 2, null]);
    },
  ],
  [
    'resultIndex, results',
    'the index is of the first that changed; those before it are the same objects, final ones stay, interim ones come last',
    async () => {
      const made = await started({ continuous: true, interimResults: true });
      made.service.tell(...utterance(MATCH), ...utterance(AGAIN), ...utterance(NONE), ...utterance(UNSURE));
      const events = made.results().filter(({ results }) => results !== null);
      expect(events.map(({ resultIndex }) => resultIndex)).toEqual([0, 0, 1, 1, 2, 2]);
      for (const [index, event] of events.entries()) {
        const list = [...(event.results ?? [])];
        const before = [...(events[index - 1]?.results ?? [])];
        expect(list.length).toBeGreaterThanOrEqual(event.resultIndex);
        for (let at = 0; at < event.resultIndex; at += 1) expect(list[at]).toBe(before[at]);
        const kinds = list.map(({ isFinal }) => isFinal);
        expect(kinds).toEqual([...kinds].sort((a, b) => Number(b) - Number(a)));
      }
    },
  ],
];

const PHRASES: readonly Row[] = [
  [
    'SpeechRecognitionPhrase',
    'takes a boost of 0 to 10, 1 where none is given, and throws for any other',
    () => {
      expect([0, 10].map((boost) => new SpeechRecognitionPhrase('x', boost).boost)).toEqual([0, 10]);
      expect(new SpeechRecognitionPhrase('x').boost).toBe(1);
      for (const boost of [-0.001, 10.001]) {
        expect(() => new SpeechRecognitionPhrase('x', boost)).toThrow(named('SyntaxError'));
      }
    },
  ],
  [
    'SpeechRecognitionPhraseList',
    'throws a RangeError for an index of which there is no phrase',
    () => {
      const list = new SpeechRecognitionPhraseList([new SpeechRecognitionPhrase('one')]);
      for (const index of [-1, 1, 7]) {
        expect(() => list.item(index)).toThrow(RangeError);
        expect(() => list.removeItem(index)).toThrow(RangeError);
      }
      expect(list.length).toBe(1);
    },
  ],
  [
    'addItem()',
    'may add a phrase twice, of which the last boost counts; an empty phrase is ignored',
    async () => {
      const phrases = new SpeechRecognitionPhraseList();
      for (const [phrase, boost] of [
        ['stand by', 0],
        ['affirm', 5],
        ['', 3],
        ['affirm', 0],
        ['stand by', 2],
      ] as const) {
        phrases.addItem(new SpeechRecognitionPhrase(phrase, boost));
      }
      const grammars = new SpeechRecognition(new FakeService()).grammars;
      const { service } = await started({ phrases, grammars });
      expect(phrasesOf(service.opened[0]?.listened.wanted)).toEqual(['stand by']);
    },
  ],
  [
    'phrases',
    'may (draft of 8 May 2026) be a plain array',
    async () => {
      const grammars = new SpeechRecognition(new FakeService()).grammars;
      const { service } = await started({ phrases: [new SpeechRecognitionPhrase('affirm')], grammars });
      expect(phrasesOf(service.opened[0]?.listened.wanted)).toEqual(['affirm']);
    },
  ],
];

describe.each([
  ['results', RESULTS],
  ['phrases', PHRASES],
])('the draft on %s', (_, rows) => {
  it.each(rows)('%s: %s', (_heading, _sentence, check) => check());
});
