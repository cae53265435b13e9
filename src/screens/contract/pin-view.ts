/** The pad for a PIN. It lies over another screen, and what is typed stays in it. */

export interface PinView {
  /** Changes when another PIN is asked for, so that nothing typed is left over. */
  readonly key: string;
  readonly person: string;
  /** The PIN is being compared, which takes a moment on purpose. */
  readonly checking: boolean;
}

export interface PinActs {
  enter(digits: string): void;
  cancel(): void;
}
