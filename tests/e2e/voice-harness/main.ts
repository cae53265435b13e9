/** A bare page around the real ear and the real voice, to hold them to the promises of their ports. */
import type { Command } from '../../../src/domain/command';
import { phraseBook } from '../../../src/kiosk/phrases';
import { createEar } from '../../../src/voice/ear';
import { createMouth } from '../../../src/voice/mouth';
import { enrollingConformance } from '../../conformance/enrolling';
import { hearingConformance } from '../../conformance/hearing';
import { speakingConformance } from '../../conformance/speaking';

export interface VoiceHarness {
  hearing(): Promise<readonly string[]>;
  enrolling(): Promise<readonly string[]>;
  speaking(): Promise<readonly string[]>;
}

declare global {
  interface Window {
    voiceHarness: VoiceHarness;
    /** Given by the test: a sentence spoken by a voice that is not the kiosk's, as base64 of Float32 samples. */
    renderSpeech(text: string): Promise<string>;
  }
}

/** End-of-speech pause and decision, with room for a busy machine. */
const DECISION_MS = 2_500;

const book = phraseBook();
const ear = () => createEar({ phraseBook: book, engineBase: '/engine/', modelBase: '/engine/model/' });

async function speak(command: Command): Promise<void> {
  await window.tableStub.say(await window.renderSpeech(book.phraseFor(command)));
  await new Promise((done) => setTimeout(done, DECISION_MS));
}

window.voiceHarness = {
  hearing: () => hearingConformance({ port: ear(), speak }),
  enrolling: () => enrollingConformance({ port: ear(), say: speak }),
  speaking: () => speakingConformance({ port: createMouth('/engine/flite.wasm'), finish: () => Promise.resolve() }),
};
document.title = 'ready';
