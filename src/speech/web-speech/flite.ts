/** The entry for the voice without a page: text in, samples out. */
export type { FliteRequest, FliteVoice } from './synthesis/flite';
export { FLITE_VOICES, synthesize } from './synthesis/flite';
export { requestFor } from './synthesis/flite-request';
export type { Sound } from './synthesis/flite-wav';
export { parseWav } from './synthesis/flite-wav';
export { splitSentences } from './synthesis/sentences';
