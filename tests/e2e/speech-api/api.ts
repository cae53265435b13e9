/** The interfaces as a page finds them on its window, with the types of the package. */
import type * as speech from '@stowcall/web-speech';

type Recognition = Pick<typeof speech.SpeechRecognition, 'available' | 'install'>;

export interface SpeechApi {
  readonly SpeechRecognition: Recognition & { new (): speech.SpeechRecognition };
  readonly SpeechRecognitionEvent: typeof speech.SpeechRecognitionEvent;
  readonly SpeechRecognitionPhrase: typeof speech.SpeechRecognitionPhrase;
  readonly SpeechGrammar: typeof speech.SpeechGrammar;
  readonly SpeechGrammarList: typeof speech.SpeechGrammarList;
  readonly SpeechSynthesisUtterance: typeof speech.SpeechSynthesisUtterance;
  readonly SpeechSynthesisEvent: typeof speech.SpeechSynthesisEvent;
  readonly SpeechSynthesisErrorEvent: typeof speech.SpeechSynthesisErrorEvent;
  readonly speechSynthesis: speech.SpeechSynthesis;
}

/** Those of a window; of this page's, where none is given. */
export function apiOf(page: Window = window): SpeechApi {
  return page as unknown as SpeechApi;
}
