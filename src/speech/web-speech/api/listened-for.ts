/** What a recognition listens for, compiled from the grammars and phrases that were set on it. */
import type { Result } from '@stowcall/grammar';
import type { ListenFor } from '../decision/listen-for';
import { listenFor } from '../decision/listen-for';
import type { GrammarsTrouble, SpeechGrammarList, SpeechRecognitionPhrase } from './grammars';
import { grammarPhrases, wantedPhrases } from './grammars';

export interface GrammarSettings {
  readonly grammars: SpeechGrammarList;
  readonly phrases: Iterable<SpeechRecognitionPhrase>;
  readonly others: SpeechGrammarList;
  readonly rivals: SpeechGrammarList;
  readonly lowRisk: SpeechGrammarList;
}

export function listenedFor(settings: GrammarSettings): Result<ListenFor, GrammarsTrouble> {
  const wanted = wantedPhrases(settings.grammars, settings.phrases);
  if (!wanted.ok) return wanted;
  const others = grammarPhrases(settings.others);
  if (!others.ok) return others;
  const rivals = grammarPhrases(settings.rivals);
  if (!rivals.ok) return rivals;
  const lowRisk = grammarPhrases(settings.lowRisk);
  if (!lowRisk.ok) return lowRisk;
  return listenFor({ wanted: wanted.value, others: others.value, rivals: rivals.value, lowRisk: lowRisk.value });
}
