/** Grammars and phrases that a page hands to the recogniser. */
import { describe, expect, it } from 'vitest';
import { automatonOf } from '../../../../src/speech/web-speech/engine/automaton';
import { phrasesOf } from './fake-service';
import {
  wantedPhrases,
  SpeechGrammarList,
  SpeechRecognitionPhrase,
  SpeechRecognitionPhraseList,
} from '../../../../src/speech/web-speech/api/grammars';

const list = (...texts: string[]) => {
  const grammars = new SpeechGrammarList();
  for (const text of texts) grammars.addFromString(text);
  return grammars;
};
const none = new SpeechRecognitionPhraseList();

/** Everything that may be said, sorted. */
const wantedIn = (grammars: SpeechGrammarList, phrases: SpeechRecognitionPhraseList) => {
  const wanted = wantedPhrases(grammars, phrases);
  const automaton = wanted.ok ? automatonOf(wanted.value) : wanted;
  return automaton.ok ? phrasesOf(automaton.value) : automaton;
};

describe('grammars', () => {
  it('JSGF is taken as it is', () => {
    const text = '#JSGF V1.0; grammar a; public <a> = one;';
    expect(wantedIn(list(text), none)).toEqual(['one']);
  });

  it('SRGS ABNF is entered at its root, or else at its public rules', () => {
    const header = '#ABNF 1.0 UTF-8;\nlanguage en-US; mode voice;';
    expect(wantedIn(list(`${header} root $b; public $a = one; $b = two;`), none)).toEqual(['two']);
    expect(wantedIn(list(`${header} public $a = one; $b = two;`), none)).toEqual(['one']);
  });

  it('SRGS XML says the same as its ABNF form', () => {
    const rule = '<rule id="a" scope="public"><item repeat="0-1">stand</item> <one-of><item>by</item></one-of></rule>';
    const head = '<grammar version="1.0" xmlns="http://www.w3.org/2001/06/grammar" xml:lang="en-US">';
    const xml = wantedIn(list(`${head}${rule}</grammar>`), none);
    expect(xml).toEqual(['by', 'stand by']);
    expect(xml).toEqual(wantedIn(list('#ABNF 1.0;\nlanguage en-US; public $a = [stand] by;'), none));
  });

  it.each([
    ['no grammar at all', 'stand by'],
    ['JSGF without a public rule', '#JSGF V1.0; grammar a; <a> = one;'],
    ['ABNF that refers to a file', '#ABNF 1.0 UTF-8;\nlanguage en-US; mode voice; public $a = $<other.gram>;'],
  ])('%s is refused', (_, text) => {
    expect(wantedPhrases(list(text), none)).toMatchObject({ ok: false, reason: 'bad-grammar' });
  });

  it('a grammar of weight 0 is not listened for', () => {
    const grammars = new SpeechGrammarList();
    grammars.addFromString('#JSGF V1.0; grammar a; public <a> = one;', 0);
    expect(wantedPhrases(grammars, none)).toMatchObject({ ok: false, reason: 'nothing-to-hear' });
  });

  it.each([-0.1, 1.1, Number.NaN])('weight %d is a SyntaxError', (weight) => {
    expect(() => list().addFromString('#JSGF', weight)).toThrow(expect.objectContaining({ name: 'SyntaxError' }));
  });

  it('are read back by index', () => {
    const grammars = list('#JSGF one', '#JSGF two');
    expect([grammars.length, grammars.item(1)?.src, grammars.item(2)]).toEqual([2, '#JSGF two', null]);
  });
});

describe('phrases', () => {
  // Draft of 8 May 2026: boost outside 0 to 10 is a SyntaxError.
  it.each([-0.1, 10.1, Number.NaN])('boost %d is a SyntaxError', (boost) => {
    expect(() => new SpeechRecognitionPhrase('x', boost)).toThrow(expect.objectContaining({ name: 'SyntaxError' }));
  });

  it('can be added and removed', () => {
    const phrases = new SpeechRecognitionPhraseList();
    phrases.addItem(new SpeechRecognitionPhrase('one'));
    phrases.addItem(new SpeechRecognitionPhrase('two'));
    phrases.removeItem(0);
    expect([phrases.length, phrases.item(0).phrase, phrases.item(0).boost]).toEqual([1, 'two', 1]);
    expect(() => phrases.removeItem(1)).toThrow('no such phrase');
  });

  it('become words in small letters; what has none, or no boost, is left out', () => {
    const phrases = new SpeechRecognitionPhraseList(
      ['Stand by!', '...', 'X-ray'].map((phrase) => new SpeechRecognitionPhrase(phrase)),
    );
    phrases.addItem(new SpeechRecognitionPhrase('never', 0));
    expect(wantedIn(list(), phrases)).toEqual(['stand by', 'x ray']);
  });
});
