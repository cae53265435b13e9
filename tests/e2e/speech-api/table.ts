/**
 * What the published tests of the Web Speech API assert (web-platform-tests, folder `speech-api`), in our own words
 * and with our own checks, row by row. Those called manual are here where the package's own voice can take the
 * person's part.
 *
 * The older `SpeechRecognition.https.html` asks for attributes and functions that are rows of `idlharness` here.
 *
 * Left out:
 * - `SpeechRecognition-isSourceSupported.html`: a method that is neither in the draft nor in the interface
 *   definitions beside the tests.
 * - `SpeechSynthesis-speak-SSML.html`, and in the older `historical.html` that `onmark` is gone: they were taken back;
 *   the draft has SSML and `onmark`.
 * - `SpeechRecognition.tentative.html`: that `new` throws in an insecure context; the draft's way, not to be there, is
 *   a row.
 * - `SpeechRecognition-detached-iframe.window.js`, that a removed frame has no constructor: it is the browser that
 *   takes its own away; what a script has put on a window stays.
 * - `SpeechRecognition-basics.https.html`, `mode`: gone from the draft, which has `processLocally`.
 * - `SpeechRecognition-abort-manual.https.html`, that abort tells of an error `aborted`: the draft wants nothing told
 *   but that it has ended.
 * - `SpeechRecognition-installOnDevice.https.html`, what follows where English must be downloaded first, and that
 *   British English is there with it: the model is part of the page and is of American English.
 * - `SpeechRecognition-concurrentMediaStreamTrack-manual.https.html`: two recognitions at once; there is one engine
 *   with one session.
 * - `SpeechRecognition-phrases-manual.https.html`, that recognition by a remote service refuses phrases, and
 *   `SpeechRecognition-recognitionContext-manual.https.html`: there is no remote service, and the context became
 *   phrases.
 * - `SpeechSynthesisUtterance-volume-manual.html` and its older copy: a person must hear how loud it is.
 * - `idlharness.https.window.js`, what concerns `EventTarget` and `Event` themselves: they are the browser's.
 */
import { INTERFACES } from './interfaces';
import { LISTENING } from './listening';
import { RECOGNITION } from './recognition';
import type { Row } from './row';
import { SYNTHESIS, UNTOUCHED } from './synthesis';

export const BEFORE_TOUCH: readonly Row[] = UNTOUCHED;

/** Each list by itself; what needs no sound does not wait for what does. */
export const AFTER_TOUCH: readonly (readonly Row[])[] = [[...INTERFACES, ...RECOGNITION], SYNTHESIS, LISTENING];
