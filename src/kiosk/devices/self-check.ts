/** The start screen's self-check: each part is really started, and a failure says what still works without it. */
import { PARTS, type Part, type SelfCheckLine } from '../../screens/contract/start-view';
import type { SightingTrouble } from '../../scan/sighting';
import type { HearingTrouble } from '../../voice/hearing';
import type { SpeakingTrouble } from '../../voice/speaking';

const BY_HAND = 'Touch, keys and the command card still work.';

const HEARING: Readonly<Record<HearingTrouble, { readonly part: Part; readonly text: string }>> = {
  denied: { part: 'microphone', text: `The microphone is not allowed. Allow it for this page. ${BY_HAND}` },
  absent: { part: 'microphone', text: `No microphone is connected. Connect one. ${BY_HAND}` },
  unplugged: { part: 'microphone', text: `The microphone was unplugged. Connect it again. ${BY_HAND}` },
  engine: { part: 'recogniser', text: `The recogniser did not start. Reload this page. ${BY_HAND}` },
  model: { part: 'recogniser', text: `The speech model cannot be loaded. Start the kiosk again. ${BY_HAND}` },
};

const SEEING: Readonly<Record<SightingTrouble, string>> = {
  denied: 'The camera is not allowed. Allow it for this page. A keyboard-style scanner still works.',
  absent: 'No camera answers. Connect one, or close the program that uses it. A keyboard-style scanner still works.',
  unplugged: 'The camera was unplugged. Connect it again. A keyboard-style scanner still works.',
  engine: 'The label reader did not start. Reload this page. A keyboard-style scanner still works.',
};

const SPEAKING: Readonly<Record<SpeakingTrouble, string>> = {
  engine: 'The voice did not start. Everything it would say is on the screen.',
  noAudio: 'Sound is not allowed yet. Touch the screen once. Everything is on the screen as well.',
};

const UNTRIED = 'Not tried yet: the recogniser must start first.';

/** Which part a hearing trouble belongs to, and the sentence for it. */
export function sayHearingTrouble(trouble: HearingTrouble): { readonly part: Part; readonly text: string } {
  return HEARING[trouble];
}

export function saySightingTrouble(trouble: SightingTrouble): string {
  return SEEING[trouble];
}

export function saySpeakingTrouble(trouble: SpeakingTrouble): string {
  return SPEAKING[trouble];
}

/** All parts, still being checked. */
export function firstChecks(): readonly SelfCheckLine[] {
  return PARTS.map((part) => ({ part, state: 'checking' as const, detail: '' }));
}

/** The list with one part's result put in; `detail` null means that it works. */
export function withCheck(
  checks: readonly SelfCheckLine[],
  part: Part,
  detail: string | null,
): readonly SelfCheckLine[] {
  return checks.map((line) =>
    line.part === part
      ? { part, state: detail === null ? ('works' as const) : ('failed' as const), detail: detail ?? '' }
      : line,
  );
}

/** The list with a remark on one part that works. */
export function withRemark(checks: readonly SelfCheckLine[], part: Part, detail: string): readonly SelfCheckLine[] {
  return checks.map((line) => (line.part === part && line.state === 'works' ? { ...line, detail } : line));
}

/** The list with one part that could not be tried, because another one must work first. */
export function withUntried(checks: readonly SelfCheckLine[], part: Part): readonly SelfCheckLine[] {
  return checks.map((line) => (line.part === part ? { part, state: 'untried' as const, detail: UNTRIED } : line));
}

/** The sentences of what has failed, for the status bar that is always visible. */
export function troublesOf(checks: readonly SelfCheckLine[]): readonly string[] {
  return checks.filter((line) => line.state === 'failed').map((line) => line.detail);
}
