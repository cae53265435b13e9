/** Whether a page may ask for recognition, and whether this engine knows the language that it asks for. */
import { required } from './web-idl';

/** Taken while the page is shown: the window of a frame that is gone may have it no more. */
const Refusal = DOMException;

export type AvailabilityStatus = 'unavailable' | 'downloadable' | 'downloading' | 'available';

export interface SpeechRecognitionOptions {
  readonly langs: readonly string[];
  readonly processLocally?: boolean;
  /** What the speech will be like; this engine hears commands. */
  readonly quality?: 'command' | 'dictation' | 'conversation';
}

/** Chromium's name for what the draft calls the policy-controlled feature. */
const POLICY = 'on-device-speech-recognition';

interface FramePolicy {
  readonly featurePolicy?: {
    features(): readonly string[];
    allowsFeature(name: string): boolean;
  };
}

/** Letters, digits and hyphens as BCP 47 forms them; the meaning of the parts is not looked at. */
function checkLanguageTags(langs: readonly string[]): void {
  const bad = langs.find((lang) => !/^[a-z]{1,8}(-[a-z\d]{1,8})*$/i.test(lang));
  if (bad !== undefined) throw new Refusal(`"${bad}" is not a language tag.`, 'SyntaxError');
}

/** A page that is shown no more hears nothing. Outside of a page there is no document. */
export function checkActive(): void {
  if (globalThis.document?.defaultView !== null) return;
  throw new Refusal('This page is shown no more.', 'InvalidStateError');
}

/** A frame may be kept from recognition; where the browser knows no such policy, it is not. */
function isAllowed(): boolean {
  const policy = (globalThis.document as (Document & FramePolicy) | undefined)?.featurePolicy;
  return !policy?.features().includes(POLICY) || policy.allowsFeature(POLICY);
}

export function isSupported(lang: string): boolean {
  return /^en(-us)?$/i.test(lang);
}

/** Throws where the page may not ask, or asks for what is no language. */
function canHear(options: SpeechRecognitionOptions): boolean {
  const { langs, quality = 'command' } = required(options, 'What is asked for');
  checkActive();
  checkLanguageTags(langs);
  return quality === 'command' && langs.length > 0 && langs.every(isSupported);
}

/** What `SpeechRecognition.available` answers: the engine lies in the page, so what is heard is heard locally. */
export function availability(options: SpeechRecognitionOptions): Promise<AvailabilityStatus> {
  return promised(() => (canHear(options) && isAllowed() ? 'available' : 'unavailable'));
}

/** What `SpeechRecognition.install` answers: nothing is ever fetched, so it is true where everything is here already. */
export function installation(options: SpeechRecognitionOptions): Promise<boolean> {
  return promised(() => {
    const heard = canHear(options);
    if (isAllowed()) return heard;
    throw new Refusal(
      'No recognition here: a permissions policy forbids it, or a cross-origin iframe was not given it.',
      'NotAllowedError',
    );
  });
}

/** Web IDL: what a function that gives a promise throws, its promise is refused with. */
function promised<T>(work: () => T): Promise<T> {
  return new Promise((resolve) => resolve(work()));
}
