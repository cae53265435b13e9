/** The entry without a page: the recogniser itself, from samples to verdicts. For Node, for workers and for measuring. */
export { featuresOf } from './acoustics/cepstra';
export { soundFor } from './acoustics/denoise';
export type { Utterance } from './acoustics/endpointer';
export { Endpointer, ENDPOINTER, PAUSE_MS } from './acoustics/endpointer';
export type { Margins, Thresholds } from './decision/certainty';
export {
  DEAF_SNR,
  firstPassFor,
  fillerCosts,
  phonesIn,
  marginsFor,
  secondPassFor,
  SUPPORT_MAX,
  supportedBy,
  TEMPLATE_WEIGHT,
  THRESHOLDS,
} from './decision/certainty';
export type { Listened, ListenFor } from './decision/listen-for';
export { listenFor, listenForTexts } from './decision/listen-for';
export type { Block, ListenerEvent } from './decision/listener';
export { RecognitionListener } from './decision/listener';
export type { Risk } from './decision/risk';
export { riskOf, RISKS } from './decision/risk';
export type { Verdict } from './decision/verdict';
export { phraseOf } from './decision/verdict';
export type { Automaton } from './engine/automaton';
export { accepts, automatonOf } from './engine/automaton';
export type { Decoding } from './engine/decoding';
export type { RecognitionEngine } from './engine/engine';
export { createEngine, SAMPLE_RATE } from './engine/engine';
export type { Handicap, FillerCosts, Network } from './engine/network';
export { networkOf } from './engine/network';
export type { PhraseNode, Phrases } from './engine/phrases';
export { fixedPhrases, phraseRule, phrasesOf } from './engine/phrases';
export { parseVoiceSample, WORDS_MAX } from './rescoring/parse-sample';
export type { SpeakerScorer } from './rescoring/speaker-scorer';
export { templateScorerOf } from './rescoring/template-scorer';
export type { VoiceSample } from './rescoring/voice-sample';
export { SAMPLE_WIDTH } from './rescoring/voice-sample';
