/**
 * Turn-taking between the voice and the ear: the ear is closed from before the first sound of a prompt until after
 * its last one, so the kiosk can never confirm anything by hearing itself (invariant 3).
 */
import type { Prompt } from '../packing/view';
import type { Heard, HearingPort, Vocabulary } from '../voice/hearing';
import type { SpeakingPort } from '../voice/speaking';
import { sameVocabulary } from './vocabulary';

export interface ConversationState {
  readonly speaking: boolean;
  readonly listening: boolean;
  /** Last thing heard, or why nothing was taken. */
  readonly heard: string | null;
}

export interface Conversation {
  /** Says the prompt if its key is new, then opens the ear for the vocabulary; null keeps the ear closed. */
  present(prompt: Prompt, vocabulary: Vocabulary | null, rate: number): void;
  /** Says something beside the prompt (a trouble, for example), then goes on as before. */
  interject(text: string): void;
  stop(): void;
}

export interface ConversationParts {
  readonly ear: HearingPort;
  readonly mouth: SpeakingPort;
  readonly onCommand: (heard: Extract<Heard, { kind: 'heard' }>) => void;
  readonly onState: (state: ConversationState) => void;
}

/** How many sounds in a row may stay unanswered before the kiosk asks aloud. One noise is no question. */
const UNHEARD_BEFORE_ASKING = 2;
const NOT_HEARD = 'Not heard. Say it again, or press.';

/** Starts the conversation; it is silent until something is presented. */
export function createConversation(parts: ConversationParts): Conversation {
  const { ear, mouth } = parts;
  let state: ConversationState = { speaking: false, listening: false, heard: null };
  let key: string | null = null;
  let wanted: Vocabulary | null = null;
  let open: Vocabulary | null = null;
  let rate = 1;
  let turn = 0;
  let unheard = 0;

  const change = (next: Partial<ConversationState>): void => {
    state = { ...state, ...next };
    parts.onState(state);
  };

  const closeEar = (): void => {
    ear.hush();
    open = null;
  };

  const openEar = (): void => {
    if (wanted === null || wanted.commands.length === 0) {
      closeEar();
      change({ listening: false });
      return;
    }
    if (!sameVocabulary(open, wanted)) {
      open = wanted;
      ear.listen(wanted);
    }
    change({ listening: true });
  };

  const speak = (text: string): void => {
    turn += 1;
    const mine = turn;
    closeEar();
    change({ speaking: true, listening: false });
    void mouth.say(text, rate).then(() => {
      // A later sentence has taken the turn: it opens the ear when it is done.
      if (mine !== turn) return;
      change({ speaking: false });
      openEar();
    });
  };

  const answerUnheard = (text: string): void => {
    unheard += 1;
    change({ heard: text });
    if (unheard >= UNHEARD_BEFORE_ASKING) {
      unheard = 0;
      speak(text);
    }
  };

  ear.onHeard((heard) => {
    if (state.speaking || wanted === null) return;
    if (heard.kind === 'heard') {
      unheard = 0;
      change({ heard: heard.words });
      parts.onCommand(heard);
    } else if (heard.kind === 'ambiguous') {
      unheard = 0;
      const text = `Not sure: ${heard.candidates.slice(0, 2).join(', or ')}? Say it again.`;
      change({ heard: text });
      speak(text);
    } else {
      answerUnheard(NOT_HEARD);
    }
  });

  return {
    present: (prompt, vocabulary, nextRate) => {
      wanted = vocabulary;
      rate = nextRate;
      if (prompt.key !== key) {
        key = prompt.key;
        unheard = 0;
        speak(prompt.say);
      } else if (!state.speaking) {
        openEar();
      }
    },
    interject: (text) => {
      speak(text);
    },
    stop: () => {
      turn += 1;
      key = null;
      wanted = null;
      mouth.stop();
      closeEar();
      change({ speaking: false, listening: false });
    },
  };
}
