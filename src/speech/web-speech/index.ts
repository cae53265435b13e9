/**
 * The entry for a page: the interfaces of the Web Speech API, the recogniser and the voice behind them, and the workers
 * that both run in.
 */
export { SpeechGrammar, SpeechGrammarList, SpeechRecognitionPhrase, SpeechRecognitionPhraseList } from './api/grammars';
export type { AvailabilityStatus, SpeechRecognitionOptions } from './api/availability';
export type { Engines } from './api/expose';
export { exposeWebSpeech } from './api/expose';
export { SpeechRecognition } from './api/recognition';
export { RECOGNITION_EVENTS } from './api/recognition-run';
export type { SpeechRecognitionErrorCode } from './api/results';
export {
  SPEECH_RECOGNITION_ERRORS,
  SpeechRecognitionAlternative,
  SpeechRecognitionErrorEvent,
  SpeechRecognitionEvent,
  SpeechRecognitionResult,
  SpeechRecognitionResultList,
} from './api/results';
export type { RecognitionService, RecognitionTrouble, ServiceOptions, Session, SessionEvent } from './api/service';
export { createRecognitionService } from './api/service';
export { makeRecogniserWorker } from './api/workers';
export { SpeechSynthesis } from './api/synthesis';
export {
  SpeechSynthesisErrorEvent,
  SpeechSynthesisEvent,
  SpeechSynthesisUtterance,
  SpeechSynthesisVoice,
} from './api/utterance';
export { cacheSentences } from './synthesis/cache';
export type { SoundOutput, SynthesisEngine } from './synthesis/engine';
export { ENGINE_VOICES } from './synthesis/engine';
export { createFliteEngine } from './synthesis/flite-client';
export { createSoundOutput } from './synthesis/output';
