/** The interfaces as a page finds them on its window, with the types of the package. */
import type * as grammars from '@stowcall/web-speech/api/grammars';
import type * as recognition from '@stowcall/web-speech/api/recognition';
import type * as results from '@stowcall/web-speech/api/results';
import type * as synthesis from '@stowcall/web-speech/api/synthesis';
import type * as utterance from '@stowcall/web-speech/api/utterance';

type Recognition = Pick<typeof recognition.SpeechRecognition, 'available' | 'install'>;

export interface SpeechApi {
  readonly SpeechRecognition: Recognition & { new (): recognition.SpeechRecognition };
  readonly SpeechRecognitionEvent: typeof results.SpeechRecognitionEvent;
  readonly SpeechRecognitionPhrase: typeof grammars.SpeechRecognitionPhrase;
  readonly SpeechGrammar: typeof grammars.SpeechGrammar;
  readonly SpeechGrammarList: typeof grammars.SpeechGrammarList;
  readonly SpeechSynthesisUtterance: typeof utterance.SpeechSynthesisUtterance;
  readonly SpeechSynthesisEvent: typeof utterance.SpeechSynthesisEvent;
  readonly SpeechSynthesisErrorEvent: typeof utterance.SpeechSynthesisErrorEvent;
  readonly speechSynthesis: synthesis.SpeechSynthesis;
}

/** Those of a window; of this page's, where none is given. */
export function apiOf(page: Window = window): SpeechApi {
  return page as unknown as SpeechApi;
}
