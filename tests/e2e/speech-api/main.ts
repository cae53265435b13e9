/** A page whose Web Speech API is the package's own, and the table of what can go wrong with it. */
import {
  createFliteEngine,
  createRecognitionService,
  createSoundOutput,
  ENGINE_VOICES,
  exposeWebSpeech,
  makeRecogniserWorker,
  SpeechSynthesis,
} from '@stowcall/web-speech';
import { openMicrophone } from '@stowcall/web-speech/microphone';
import { answerFromFrame } from './frames';
import { failures, type Failure } from './row';
import { AFTER_TOUCH, BEFORE_TOUCH } from './table';

declare global {
  interface Window {
    speechApi: {
      /** What went wrong before anybody had touched the page, and what goes wrong after. */
      readonly beforeTouch: readonly Failure[];
      afterTouch(): Promise<readonly Failure[]>;
      rows(): number;
      /** What is put on a window that has nothing of the browser's own. For frames: it takes the classes from theirs. */
      namesOn(isSecureContext: boolean): readonly string[];
    };
  }
}

const engine = createFliteEngine('/engine/flite.wasm');
const output = createSoundOutput(() => new AudioContext());
const engines = {
  synthesis: new SpeechSynthesis({ engine, output, voices: ENGINE_VOICES }),
  service: createRecognitionService({
    wasm: '/engine/soundswallower.web.wasm',
    model: '/engine/model',
    pronunciations: [],
    makeWorker: makeRecogniserWorker,
    openMicrophone,
    now: () => performance.now(),
  }),
};
exposeWebSpeech(window, engines);
const isFrame = window !== window.parent;
window.speechApi = {
  // Asked from outside, it would be too late: whatever the test evaluates counts as a touch.
  beforeTouch: isFrame ? [] : await failures([BEFORE_TOUCH]),
  afterTouch: () => failures(AFTER_TOUCH),
  namesOn: (isSecureContext) => {
    const target = { isSecureContext };
    exposeWebSpeech(target, engines);
    return Object.getOwnPropertyNames(target);
  },
  rows: () => [BEFORE_TOUCH, ...AFTER_TOUCH].flat().length,
};
await answerFromFrame();
if (!isFrame) console.info('ready');
