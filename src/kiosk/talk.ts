/** The conversation behind its guard: nothing is said or heard before it is known how late the loudspeaker is. */
import type { Command } from '../domain/command';
import type { Loudspeaker } from '../domain/loft';
import type { Prompt } from '../screens/contract/pack-view';
import { createConversation, type Conversation, type ConversationState, type Opening } from './conversation';
import type { ConversationParts } from './conversation';
import { BargeInGuard } from './devices/barge-in-guard';
import type { KioskParts } from './parts';

export interface TalkParts extends Pick<ConversationParts, 'sample' | 'onSample'> {
  readonly parts: KioskParts;
  /** What the loft says of its loudspeaker. */
  readonly loudspeaker: () => Loudspeaker;
  /** What to say of the loudspeaker in the self-check; empty for nothing. */
  readonly onMeasured: (text: string) => void;
  readonly onCommand: (command: Command) => void;
  readonly onState: () => void;
}

export class Talk {
  private readonly conversation: Conversation;
  private readonly guard: BargeInGuard;
  private isReady = false;
  private last: ConversationState = { speaking: false, listening: false, heard: null };

  constructor({ parts, loudspeaker, onMeasured, onCommand, onState, ...rest }: TalkParts) {
    const { ear, mouth, mark, measureDelay } = parts;
    this.guard = new BargeInGuard({
      ...(measureDelay === undefined ? {} : { measure: measureDelay }),
      kind: loudspeaker,
      onMeasuring: () => {
        this.isReady = false;
        this.conversation.stop();
      },
      onMeasured,
    });
    this.conversation = createConversation({
      ear,
      mouth,
      heardOut: () => this.guard.heardOut(),
      onCommand: ({ command }) => {
        mark('heard');
        onCommand(command);
      },
      onState: (state) => {
        if (state.listening && !this.last.listening) mark('listening');
        this.last = state;
        onState();
      },
      ...rest,
    });
  }

  state(): ConversationState {
    return this.last;
  }

  /** Measures the loudspeaker unless that was done; from then on prompts are said. */
  async prepare(): Promise<void> {
    await this.guard.measured();
    this.isReady = true;
  }

  /** The loudspeaker may be another one. */
  forgetLoudspeaker(): void {
    this.guard.forget();
  }

  /** Says the prompt if it is new, then opens the ear. */
  present(prompt: Prompt, opening: Opening | null, rate: number): void {
    if (this.isReady) this.conversation.present(prompt, opening, rate);
  }

  /** Says something beside the prompt. */
  interject(text: string): void {
    this.conversation.interject(text);
  }

  /** Says nothing more, and listens to nothing until something is presented again. */
  hush(): void {
    this.conversation.stop();
  }
}
