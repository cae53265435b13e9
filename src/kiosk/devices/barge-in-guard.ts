/** Keeps the ear shut until what the voice has said is surely over: a loudspeaker may be late. */
import type { Loudspeaker } from '../../domain/loft';
import { delayOf, NOT_MEASURED, type LoudspeakerDelay, type MeasureDelay } from './loudspeaker';

export interface BargeInGuardParts {
  /** Absent where the loudspeaker is never late. */
  readonly measure?: MeasureDelay;
  /** What the loft says of its loudspeaker. */
  readonly kind: () => Loudspeaker;
  /** Nothing is said and nothing heard until it is known when the ear may open. */
  readonly onMeasuring: () => void;
  /** What to say of the loudspeaker in the self-check; empty for nothing. */
  readonly onMeasured: (text: string) => void;
}

export class BargeInGuard {
  private delay: LoudspeakerDelay | null = null;
  private measuring: Promise<void> | null = null;

  constructor(private readonly parts: BargeInGuardParts) {}

  /** The loudspeaker may be another one: it is measured again. */
  forget(): void {
    this.delay = null;
  }

  /** Measures how late the loudspeaker is, unless that is known. Touch and scanner work meanwhile. */
  async measured(): Promise<void> {
    if (this.delay === null) await (this.measuring ??= this.measure());
  }

  /** Resolves when what the voice has handed over is surely heard. */
  async heardOut(): Promise<void> {
    const { guardMs } = this.delay ?? NOT_MEASURED;
    if (guardMs > 0) await new Promise((resolve) => setTimeout(resolve, guardMs));
  }

  private async measure(): Promise<void> {
    const { measure, kind, onMeasuring, onMeasured } = this.parts;
    if (measure === undefined) {
      this.delay = { guardMs: 0, text: '' };
      this.measuring = null;
      return;
    }
    onMeasuring();
    this.delay = await delayOf(kind(), measure);
    this.measuring = null;
    onMeasured(this.delay.text);
  }
}
