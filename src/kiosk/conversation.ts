/**
 * Turn-taking between the voice and the ear: the ear is closed from before the first sound of a prompt until after
 * its last one, so the kiosk can never confirm anything by hearing itself (invariant 3).
 */
import type { Prompt } from '../packing/machine/view';
import type { Result } from '../domain/result';
import type { Heard, HearingPort, Vocabulary } from '../voice/hearing';
import type { SpeakingPort } from '../voice/speaking';
import type { VoiceSample } from '@stowcall/web-speech/core';
import { isDeaf, type ReadTrouble } from './enrol/patient-sample';
import { sameOpening } from './vocabulary';

export interface ConversationState {
  readonly speaking: boolean;
  readonly listening: boolean;
  /** Last thing heard, or why nothing was taken. */
  readonly heard: string | null;
}

/** A line that is read for enrolment. What is said then is a sample and never a command. */
export interface LineToRead {
  readonly line: string;
}

/** What the ear is opened for: commands, or one line. */
export type Opening = Vocabulary | LineToRead;

export interface Conversation {
  /** Says the prompt if its key is new and it has words, then opens the ear for this; null keeps the ear closed. */
  present(prompt: Prompt, opening: Opening | null, rate: number): void;
  /** Says something beside the prompt (a trouble, for example), then goes on as before. */
  interject(text: string): void;
  stop(): void;
}

export interface ConversationParts {
  readonly ear: HearingPort;
  readonly mouth: SpeakingPort;
  readonly onCommand: (heard: Extract<Heard, { kind: 'heard' }>) => void;
  readonly onState: (state: ConversationState) => void;
  /** Listens to one line; absent where no voice can be learned. */
  readonly sample?: (words: string) => Promise<Result<VoiceSample, ReadTrouble>>;
  /** Resolves when what the mouth has handed over is surely heard: loudspeakers may be late. Absent: at once. */
  readonly heardOut?: () => Promise<void>;
  /** What came of a line that was read to its end, or not heard. */
  readonly onSample?: (sample: Result<VoiceSample, ReadTrouble>) => void;
}

/** How many sounds in a row may stay unanswered before the kiosk asks aloud. One noise is no question. */
const UNHEARD_BEFORE_ASKING = 2;
const NOT_HEARD = 'Not heard. Repeat it, or press.';
const TOO_LOUD = 'Too loud here to be sure. Press, use the keys, or scan the command card.';

/** What is said where nothing was obeyed. No pause stands before or after a candidate: heard late, none is a command. */
export function sayUnheard(heard: Exclude<Heard, { kind: 'heard' }>): string {
  if (heard.kind === 'notHeard') return heard.isTooLoud === true ? TOO_LOUD : NOT_HEARD;
  const near = heard.candidates.slice(0, 2);
  return near.length === 0 ? NOT_HEARD : `Not sure whether ${near.join(' or ')} was said. Repeat it, or press.`;
}

/** Starts the conversation; it is silent until something is presented. */
export function createConversation(parts: ConversationParts): Conversation {
  return new TurnTaking(parts);
}

class TurnTaking implements Conversation {
  private state: ConversationState = { speaking: false, listening: false, heard: null };
  /** Key of the prompt that was said last. */
  private key: string | null = null;
  private wanted: Opening | null = null;
  private open: Opening | null = null;
  private rate = 1;
  /** Counts sentences, so that the end of one that was cut off does not open the ear under the next. */
  private turn = 0;
  private unheard = 0;

  constructor(private readonly parts: ConversationParts) {
    parts.ear.onHeard((heard) => this.hear(heard));
  }

  present(prompt: Prompt, opening: Opening | null, rate: number): void {
    this.wanted = opening;
    this.rate = rate;
    const isNew = prompt.key !== this.key;
    if (isNew) {
      this.key = prompt.key;
      this.unheard = 0;
    }
    if (isNew && prompt.say !== '') this.speak(prompt.say);
    else if (!this.state.speaking) this.openEar();
  }

  interject(text: string): void {
    this.speak(text);
  }

  stop(): void {
    this.turn += 1;
    this.key = null;
    this.wanted = null;
    this.parts.mouth.stop();
    this.closeEar();
    this.change({ speaking: false, listening: false });
  }

  private change(next: Partial<ConversationState>): void {
    this.state = { ...this.state, ...next };
    this.parts.onState(this.state);
  }

  private closeEar(): void {
    this.parts.ear.hush();
    this.open = null;
  }

  private openEar(): void {
    const { wanted } = this;
    if (wanted === null || ('commands' in wanted && wanted.commands.length === 0)) {
      this.closeEar();
      this.change({ listening: false });
      return;
    }
    if (!sameOpening(this.open, wanted)) {
      this.open = wanted;
      if ('commands' in wanted) this.parts.ear.listen(wanted);
      else this.sample(wanted);
    }
    if (!this.state.listening) this.change({ listening: true });
  }

  private sample(wanted: LineToRead): void {
    // Ends the line before this one, where that was left out.
    this.parts.ear.hush();
    void this.parts.sample?.(wanted.line).then((sample) => {
      const isOpen = this.open === wanted;
      if (isOpen) {
        this.open = null;
        this.change({ listening: false });
      }
      // Closed meanwhile, to speak for example: it is opened anew when that is over, unless nothing can be heard.
      if (isOpen || (!sample.ok && isDeaf(sample.reason))) this.parts.onSample?.(sample);
    });
  }

  private speak(text: string): void {
    this.turn += 1;
    const mine = this.turn;
    this.closeEar();
    this.change({ speaking: true, listening: false });
    void this.sound(text).then(() => {
      // A later sentence has taken the turn: it opens the ear when it is done.
      if (mine !== this.turn) return;
      this.change({ speaking: false });
      this.openEar();
    });
  }

  private async sound(text: string): Promise<void> {
    await this.parts.mouth.say(text, this.rate);
    await this.parts.heardOut?.();
  }

  private hear(heard: Heard): void {
    if (this.state.speaking || this.wanted === null || !('commands' in this.wanted)) return;
    if (heard.kind === 'heard') {
      this.unheard = 0;
      this.change({ heard: heard.words });
      this.parts.onCommand(heard);
      return;
    }
    const text = sayUnheard(heard);
    this.change({ heard: text });
    const isQuestion = heard.kind === 'ambiguous' && heard.candidates.length > 0;
    this.unheard += isQuestion ? UNHEARD_BEFORE_ASKING : 1;
    if (this.unheard < UNHEARD_BEFORE_ASKING) return;
    this.unheard = 0;
    this.speak(text);
  }
}
