/** The strip that is always visible: what ear, voice and camera are doing, and what does not work. */
import type { Part, SelfCheckLine, VoiceStrip } from '../screens/contract/app-view';
import type { ConversationState } from './conversation';
import { troublesOf } from './self-check';

export const FIRST_STRIP: VoiceStrip = { ear: 'loading', speaking: false, camera: 'off', heard: null, trouble: [] };

const CAMERA = { works: 'on', failed: 'failed', checking: 'off', untried: 'off' } as const;

/** The strip for these checks and this turn of the conversation. */
export function stripOf(checks: readonly SelfCheckLine[], talk: ConversationState): VoiceStrip {
  const stateOf = (part: Part): SelfCheckLine['state'] =>
    checks.find((line) => line.part === part)?.state ?? 'checking';
  const ear = [stateOf('microphone'), stateOf('recogniser')];
  const ready = talk.listening ? 'listening' : 'closed';
  return {
    ear: ear.includes('failed') ? 'off' : ear.includes('checking') ? 'loading' : ready,
    speaking: talk.speaking,
    camera: CAMERA[stateOf('camera')],
    heard: talk.heard,
    trouble: troublesOf(checks),
  };
}
