/** Everything that the recogniser is told when the ear opens, in the page and in the tools alike. */
import type { PhraseBook, PhraseVocabulary } from './phrase-book';
import type { Result } from '../../domain/result';
import type { Vocabulary } from '../hearing';
import { lowRiskOf } from './low-risk';
import { othersOf } from './near-words';
import { rivalsOf } from './rivals';
import type { ListenFor, Phrases } from '@stowcall/web-speech/core';
import { fixedPhrases, listenFor, phraseRule, phrasesOf } from '@stowcall/web-speech/core';

type Opened = Result<ListenFor, 'bad-grammar'>;

/** The kiosk comes back to the same vocabularies again and again, and compiling one takes a while. */
const COMPILED = new WeakMap<PhraseBook, Map<string, Opened>>();

/** What may be said with this vocabulary, what is known beside it, and which of it does little harm. */
export function listenForCommands(vocabulary: Vocabulary, book: PhraseBook): Opened {
  const compiled = COMPILED.get(book) ?? new Map<string, Opened>();
  COMPILED.set(book, compiled);
  const key = JSON.stringify([vocabulary.commands, vocabulary.nouns]);
  const known = compiled.get(key) ?? compile(vocabulary, book);
  compiled.set(key, known);
  return known;
}

/** What is listened for while somebody's way of saying one line is learnt; the rest is known, so as not to be taken for it. */
export function listenForLine(line: string, others: Vocabulary, book: PhraseBook): Opened {
  const known = phrasesFor(others, book);
  if (!known.ok) return known;
  return listenFor({ wanted: [fixedPhrases([line])], others: [known.value], isSampled: true });
}

function compile(vocabulary: Vocabulary, book: PhraseBook): Opened {
  const wanted = phrasesFor(vocabulary, book);
  if (!wanted.ok) return wanted;
  const others = phrasesFor(othersOf(vocabulary), book);
  if (!others.ok) return others;
  const risk = lowRiskOf(vocabulary, book);
  const lowRisk = risk === null ? null : phrasesFor(risk, book);
  if (lowRisk?.ok === false) return lowRisk;
  const rivals = rivalsFor(vocabulary, book);
  return listenFor({
    wanted: [wanted.value],
    others: [others.value],
    lowRisk: lowRisk === null ? [] : [lowRisk.value],
    rivals: rivals === null ? [] : [rivals],
  });
}

/** The phrases of exactly this vocabulary. */
function phrasesFor(vocabulary: PhraseVocabulary, book: PhraseBook): Result<Phrases, 'bad-grammar'> {
  const { file } = book.grammar.entry;
  return phrasesOf(
    book.grammar,
    book.rulesFor(vocabulary).map((name) => phraseRule({ file, name })),
  );
}

/** Numbers of any length, where numbers can be said; null where they cannot. */
export function rivalsFor(vocabulary: PhraseVocabulary, book: PhraseBook): Phrases | null {
  const wanted = phrasesFor(vocabulary, book);
  const stand = phrasesOf(
    book.grammar,
    [...book.rivals.values()].map(({ rule }) => rule),
  );
  return wanted.ok && stand.ok ? rivalsOf(wanted.value, book.rivals) : null;
}
