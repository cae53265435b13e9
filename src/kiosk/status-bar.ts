/** The status bar that is always visible: what ear, voice and camera are doing, and what does not work. */
import type { Part, SelfCheckLine } from '../screens/contract/start-view';
import type { StatusBarView } from '../screens/contract/status-bar-view';
import type { ConversationState } from './conversation';
import { troublesOf } from './devices/self-check';

export const FIRST_STATUS_BAR: StatusBarView = {
  ear: 'loading',
  speaking: false,
  camera: 'off',
  heard: null,
  trouble: [],
};

const CAMERA = { works: 'on', failed: 'failed', checking: 'off', untried: 'off' } as const;

/** The status bar for these checks and this turn of the conversation. */
export function statusBarOf(checks: readonly SelfCheckLine[], talk: ConversationState): StatusBarView {
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
