/** How one command sounds when one person says it: what enrolment keeps, and what a speaker scorer compares with. */

/** Numbers in each frame of features; frames are 10 ms apart. */
export const SAMPLE_WIDTH = 13;

export interface VoiceSample {
  /** The words of the command, as the phrase book has them. */
  readonly words: string;
  /** Frame after frame, `SAMPLE_WIDTH` numbers each. A description of the sound, not the sound: no recording is kept. */
  readonly features: Float32Array;
}
